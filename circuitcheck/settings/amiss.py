"""What is told instead of a result, where it isn't a plan that is amiss."""


class LibraryAmiss(Exception):
    """Settings, a baseline or reports that can't be followed. The message names the file and says what is expected."""
