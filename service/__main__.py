"""What ``python -m service`` runs: one thread of linear algebra, then the command line."""

import os
import sys

# Two threads nearly double the CPU of small products. The library counts them when numpy is loaded, so before it is.
for variable in ("OPENBLAS_NUM_THREADS", "OMP_NUM_THREADS"):
    os.environ.setdefault(variable, "1")

if __name__ == "__main__":
    from service.command_line import main

    sys.exit(main())
