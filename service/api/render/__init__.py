"""In which format does an answer leave? Each takes only what the answer says, so that formats cannot disagree."""
