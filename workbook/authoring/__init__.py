"""The course author's tools: a new lab, what is wrong with one, and its key."""
