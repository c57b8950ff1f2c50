"""When each window of a house is taken apart and when it is whole again."""

from evenhung.plan.programme.document import programme_document
from evenhung.plan.programme.house import Programme, programme_of

__all__ = ["Programme", "programme_document", "programme_of"]
