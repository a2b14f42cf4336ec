"""The command ``nesting``."""
