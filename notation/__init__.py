"""Lodestep: works out couple sequence dances written in shorthand and typesets their script sheets."""

__version__ = "0.1.0"
