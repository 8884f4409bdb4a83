"""The word that was probably meant, as the dance layer has it."""
from notation.dance.suggest import did_you_mean, nearest

__all__ = ["did_you_mean", "nearest"]
