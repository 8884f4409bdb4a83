"""`lodestep completion`."""
from __future__ import annotations

import click

SHELLS = ("bash", "zsh", "fish")
VARIABLE = "_LODESTEP_COMPLETE"


@click.command()
@click.argument("shell", type=click.Choice(SHELLS))
def completion(shell: str) -> None:
    """Give the lines by which a SHELL completes commands, layouts, figures and file names.

    \b
    bash: add to ~/.bashrc                     eval "$(lodestep completion bash)"
    zsh:  add to ~/.zshrc                      eval "$(lodestep completion zsh)"
    fish: add to ~/.config/fish/config.fish    lodestep completion fish | source
    """
    from click.shell_completion import get_completion_class

    from notation.cli.main import lodestep

    kind = get_completion_class(shell)
    assert kind is not None
    click.echo(kind(lodestep, {}, "lodestep", VARIABLE).source())
