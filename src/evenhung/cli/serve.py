"""``evenhung serve``: the app in a browser, on this machine or shared on its network."""

from __future__ import annotations

import sys
from dataclasses import replace
from typing import TYPE_CHECKING, Annotated, Optional

import typer

from evenhung.cli.options import Data

if TYPE_CHECKING:
    from evenhung.web.config import Config
    from evenhung.web.serving import Reached

EXAMPLES = """\b
Examples:
  evenhung serve
  evenhung serve --open
  evenhung serve --share
"""


def serve(
    port: Annotated[
        Optional[int],  # noqa: UP045 - typer reads it at run time
        typer.Option(
            min=1, max=65535, metavar="NUMBER", help="Port; unset, the last one or a free one."
        ),
    ] = None,
    share: Annotated[
        bool, typer.Option("--share", help="Let phones on the same network come, by passphrase.")
    ] = False,
    open_: Annotated[bool, typer.Option("--open", help="Open it in the browser.")] = False,
    data: Data = None,
) -> None:
    """Run the app for a browser, until Ctrl-C.

    Everything stays on this machine; it works without a connection.
    """
    from evenhung.store.folder import DataFolder
    from evenhung.web.config import Config
    from evenhung.web.serving import serve as run
    from evenhung.web.sharing import names_of_this_machine

    config = Config.from_variables()
    if data is not None:
        config = replace(config, folder=DataFolder(data))
    if share:
        hosts = config.hosts or names_of_this_machine()
        config = replace(config, is_shared=True, hosts=hosts)

    def started(reached: Reached) -> None:
        _tell(config, reached)
        if open_:
            import webbrowser

            webbrowser.open(reached.address)

    can_ask = sys.stdin is not None and sys.stdin.isatty()
    run(config, port=port, started=started, keeper=_ask_for_keeper if can_ask else None)


def _ask_for_keeper() -> tuple[str, str]:
    print("Whoever comes by phone must log in. Choose a name and a passphrase for yourself.")
    name = typer.prompt("Name")
    passphrase = typer.prompt(
        "Passphrase, 12 letters or more", hide_input=True, confirmation_prompt="Again"
    )
    return name, passphrase


def _tell(config: Config, reached: Reached) -> None:
    print(f"Evenhung runs at {reached.address}  (Ctrl-C ends it)")
    if not config.is_shared:
        sys.stdout.flush()
        return
    import segno

    print("On a phone in the same network: read this code, and trust the certificate only if")
    print(f"the phone shows this fingerprint (SHA-256):\n{reached.fingerprint}")
    segno.make(reached.address, micro=False).terminal(compact=True)
    sys.stdout.flush()
