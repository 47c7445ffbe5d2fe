"""What does it cost, and how right is it? Workloads in the docstrings, figures as ratios within one run."""
