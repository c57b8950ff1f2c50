"""People and their passphrases: made, changed, shut out."""

from __future__ import annotations

from django.contrib.auth.password_validation import validate_password
from django.core.exceptions import ValidationError

from evenhung.errors import InvalidSetting
from evenhung.web.access.models import Person

LONGEST_NAME = 80


def add_person(name: str, role: str, passphrase: str) -> Person:
    """Let someone in who works on the houses.

    Parameters
    ----------
    name
        What changes are signed with; nobody else may have it.
    role
        ``keeper`` or ``joiner``.
    passphrase
        What they log in with; only a hash of it is kept.

    Raises
    ------
    InvalidSetting
        Where the name is taken or empty, or the passphrase easy to guess.
    """
    name = name.strip()
    if not (0 < len(name) <= LONGEST_NAME and name.isprintable()):
        raise InvalidSetting("name", repr(name[:LONGEST_NAME]), "1 to 80 letters")
    if Person.objects.filter(name__iexact=name).exists():
        raise InvalidSetting("name", name, "a name that nobody else has")
    person = Person(name=name, role=role)
    change_passphrase(person, passphrase)
    return person


def change_passphrase(person: Person, passphrase: str) -> None:
    """Give someone another passphrase: wherever they were logged in, they are no longer."""
    try:
        validate_password(passphrase, person)
    except ValidationError as refusal:
        allowed = "; ".join(refusal.messages).rstrip(".").lower()
        raise InvalidSetting("passphrase", "(not shown)", allowed) from None
    person.set_password(passphrase)
    person.save()


def has_keeper() -> bool:
    """Tell whether someone who may run the server has a passphrase yet."""
    return Person.objects.filter(role=Person.KEEPER, is_active=True).exists()
