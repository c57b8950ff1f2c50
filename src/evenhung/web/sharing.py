"""The names and addresses by which other devices on the network reach this machine."""

from __future__ import annotations

import socket
from contextlib import suppress

DOCUMENTATION_ADDRESS = "192.0.2.1"
"""Reserved for documents (RFC 5737): nothing is sent to it, we only ask which way it would go."""


def names_of_this_machine() -> tuple[str, ...]:
    """Give the addresses and names by which others on the network reach this machine."""
    found = []
    with suppress(OSError), socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as way:
        way.connect((DOCUMENTATION_ADDRESS, 9))  # without a network the names are all there is
        found.append(str(way.getsockname()[0]))
    name = socket.gethostname().lower().removesuffix(".local")
    if name.replace("-", "").replace(".", "").isalnum() and name != "localhost":
        found += [f"{name}.local", name]
    return tuple(found)
