"""The store: files on disk that must be whole or not there, and a survey cut into its parts."""
