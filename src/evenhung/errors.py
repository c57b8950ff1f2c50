"""The family of errors Evenhung raises on purpose.

Every one of them is an `EvenhungError`, so a caller can tell a refusal, which
is an answer, from a fault of ours, which is a bug.
"""

from dataclasses import dataclass


class EvenhungError(Exception):
    """Root of every error raised on purpose."""


class InvalidQuantity(EvenhungError, ValueError):
    """A text that cannot be read as the quantity wanted, or a number that cannot be printed.

    Parameters
    ----------
    value : str
        What was given, shortened if it is very long.
    allowed : str
        What is wrong with it and what would be accepted, in plain words.

    Examples
    --------
    >>> print(InvalidQuantity("838", "add a unit: 838 mm, 838 in"))
    '838': add a unit: 838 mm, 838 in
    """

    def __init__(self, value: str, allowed: str) -> None:
        super().__init__(value, allowed)
        self.value = value
        self.allowed = allowed

    def __str__(self) -> str:
        return f"{self.value!r}: {self.allowed}"


@dataclass(frozen=True, slots=True)
class SurveyFault:
    """One thing wrong with a survey: where it is, what was found, what is allowed.

    Parameters
    ----------
    path : str
        The place in the survey, as its author would name it: ``window[2].upper.height``.
    value : str
        What was found there.
    allowed : str
        What would be accepted.
    window : str
        Tag of the window it is in, if it is in one that has a tag.

    Examples
    --------
    >>> print(SurveyFault("window[1].box.clear_width", "'860'", "add a unit: 860 mm, 860 in"))
    window[1].box.clear_width: '860': add a unit: 860 mm, 860 in
    """

    path: str
    value: str
    allowed: str
    window: str = ""

    def __str__(self) -> str:
        where = f" (window {self.window})" if self.window else ""
        return f"{self.path}: {self.value}: {self.allowed}{where}"


class InvalidSurvey(EvenhungError, ValueError):
    """A survey refused; all its faults are reported together.

    Parameters
    ----------
    faults : tuple of SurveyFault
        Every fault found, in the order of the survey.

    Examples
    --------
    >>> fault = SurveyFault("form", "2", "1")
    >>> print(InvalidSurvey((fault,)))
    form: 2: 1
    """

    def __init__(self, faults: tuple[SurveyFault, ...]) -> None:
        super().__init__(faults)
        self.faults = faults

    def __str__(self) -> str:
        return "\n".join(str(fault) for fault in self.faults)


class InvalidSetting(EvenhungError, ValueError):
    """A setting that the program cannot be started with.

    Parameters
    ----------
    setting : str
        What is set: an option, a variable or a file.
    value : str
        What it was set to.
    allowed : str
        What would be accepted.

    Examples
    --------
    >>> print(InvalidSetting("--port", "70000", "a number from 1 to 65535"))
    --port: 70000: a number from 1 to 65535
    """

    def __init__(self, setting: str, value: str, allowed: str) -> None:
        super().__init__(setting, value, allowed)
        self.setting = setting
        self.value = value
        self.allowed = allowed

    def __str__(self) -> str:
        return f"{self.setting}: {self.value}: {self.allowed}"


class InvalidFile(EvenhungError, ValueError):
    """A file that was handed in and is refused.

    Parameters
    ----------
    name : str
        The file, or the part of it, that is at fault.
    value : str
        What was found there.
    allowed : str
        What would be accepted.

    Examples
    --------
    >>> print(InvalidFile("photo", "12 bytes", "a JPEG, PNG or WebP picture"))
    photo: 12 bytes: a JPEG, PNG or WebP picture
    """

    def __init__(self, name: str, value: str, allowed: str) -> None:
        super().__init__(name, value, allowed)
        self.name = name
        self.value = value
        self.allowed = allowed

    def __str__(self) -> str:
        return f"{self.name}: {self.value}: {self.allowed}"


class UnknownReference(EvenhungError, LookupError):
    """A name that no reference table holds."""


class DrawingDomainError(EvenhungError, ValueError):
    """A drawing asked for in a way that its window does not allow."""


class PhysicsDomainError(EvenhungError, ValueError):
    """A value outside the range for which a formula holds."""


class InvalidInstance(EvenhungError, ValueError):
    """An instance of a solver's problem refused, for the first thing that is wrong with it.

    Parameters
    ----------
    path : str
        The place in the instance.
    value : str
        What was found there, shortened if it is very long.
    allowed : str
        What would be accepted.

    Examples
    --------
    >>> print(InvalidInstance("instance.rules.move", "-5", "a whole number from 0 to 1000000"))
    instance.rules.move: -5: a whole number from 0 to 1000000
    """

    def __init__(self, path: str, value: str, allowed: str) -> None:
        super().__init__(path, value, allowed)
        self.path = path
        self.value = value
        self.allowed = allowed

    def __str__(self) -> str:
        return f"{self.path}: {self.value}: {self.allowed}"
