"""The demo house: Tollgate House, a survey of our own invention."""

from pathlib import Path

SURVEY = Path(__file__).with_name("tollgate-house.toml")
"""The file of its survey."""
