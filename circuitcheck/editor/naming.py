"""Files as the protocol names them."""

from pygls import uris


def file_of(uri: str) -> str:
    """The file behind a URI; one that was never saved goes by its URI."""
    return uris.to_fs_path(uri) or uri


def uri_of(file: str) -> str:
    """The URI of a file."""
    return file if file.startswith("untitled:") else uris.from_fs_path(file) or file
