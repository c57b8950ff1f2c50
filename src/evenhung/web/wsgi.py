"""The app as a server loads it: Django, made ready once in each process."""

from __future__ import annotations

import os
import threading
import time

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "evenhung.web.settings")

from django.core.wsgi import get_wsgi_application

application = get_wsgi_application()


def end_with(parent: int) -> None:
    """End this process soon after its parent: a server that was killed leaves nobody behind."""

    def watch() -> None:
        while os.getppid() == parent:
            time.sleep(0.5)
        os._exit(1)

    threading.Thread(target=watch, name="watch-the-server", daemon=True).start()


if "EVENHUNG_SERVER" in os.environ:
    end_with(int(os.environ["EVENHUNG_SERVER"]))
