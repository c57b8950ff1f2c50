"""What a server is started with, and what it is not."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from evenhung.errors import InvalidSetting
from evenhung.store.folder import DataFolder
from evenhung.web.config import Config


@pytest.mark.parametrize(
    ("variables", "said"),
    [
        ({"EVENHUNG_DATABASE_URL": "mysql://a:secret@b/c"}, "EVENHUNG_DATABASE_URL: mysql:..."),
        ({"EVENHUNG_DATABASE_URL": "postgresql://host"}, "EVENHUNG_DATABASE_URL: postgresql:..."),
        ({"EVENHUNG_SHARED": "perhaps"}, "EVENHUNG_SHARED: 'perhaps': yes or no"),
        ({"EVENHUNG_HOSTS": "bench, other"}, "EVENHUNG_HOSTS: ' other': names or addresses"),
        ({"EVENHUNG_HOSTS": "*"}, "EVENHUNG_HOSTS: '[*]'"),
    ],
    ids=["other database", "no database", "shared", "space", "any host"],
)
def test_what_cannot_be_is_refused_by_name_and_tells_no_secret(variables, said):
    with pytest.raises(InvalidSetting, match=said) as refusal:
        Config.from_variables(variables)
    assert "secret" not in str(refusal.value)


def test_variables_carry_a_configuration_whole(tmp_path):
    config = Config(
        DataFolder(tmp_path), "postgres://ann:x@localhost:5432/sash", True, ("192.0.2.7", "bench")
    )
    assert Config.from_variables(config.as_variables()) == config


@pytest.mark.slow
def test_django_finds_nothing_to_warn_of_in_a_shared_server(tmp_path):
    config = Config(DataFolder(tmp_path), is_shared=True, hosts=("192.0.2.7",))
    variables = {
        **os.environ,
        **config.as_variables(),
        "DJANGO_SETTINGS_MODULE": "evenhung.web.settings",
    }
    del variables["DJANGO_ALLOW_ASYNC_UNSAFE"]  # for the tests alone
    command = [sys.executable, "-m", "django", "check", "--deploy", "--fail-level", "WARNING"]
    done = subprocess.run(command, env=variables, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr


def test_the_tables_are_those_of_the_models():
    from django.core.management import call_command

    call_command("makemigrations", check=True, dry_run=True, verbosity=0)


def test_every_asset_is_sent_from_here():
    """No page, style sheet or script of ours asks anything of another machine."""
    web = Path(sys.modules["evenhung.web"].__file__).parent
    ours = [*web.rglob("*.html"), *(web / "static/evenhung").rglob("*")]
    asking = [
        file.name
        for file in ours
        if file.is_file() and "://" in file.read_text().replace("http://www.w3.org/2000/svg", "")
    ]
    assert asking == []


def test_no_page_has_script_or_style_in_it():
    web = Path(sys.modules["evenhung.web"].__file__).parent
    for page in web.rglob("*.html"):
        text = page.read_text()
        for forbidden in ("<style", "style=", "onclick=", "javascript:", "hx-on"):
            assert forbidden not in text, page
        assert text.count("<script") == text.count("<script src="), page
