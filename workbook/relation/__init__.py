"""The relation language: text to a syntax tree, and what a tree can become."""
