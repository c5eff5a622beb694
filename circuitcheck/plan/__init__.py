"""Text in, statements out: every statement knows its place in the text."""
