from notation.bounds import *  # noqa: F403
