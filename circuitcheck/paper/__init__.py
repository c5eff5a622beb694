"""What is built, tested, and used from: the contents of a prop's build book, one file for each list."""
