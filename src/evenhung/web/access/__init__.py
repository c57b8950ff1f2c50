"""Who may come: keeper, joiner and visitor, their passphrases and links."""
