"""The version of Evenhung, kept in one place: the build reads it from here too."""

VERSION = "0.1.0"
