"""`explain`: a word, a message, a verdict or a rule in plain words."""

from __future__ import annotations

import click

from .opening import stop


@click.command()
@click.argument("subject", nargs=-1, required=True, metavar="SUBJECT")
def explain(subject: tuple[str, ...]) -> None:
    """What does it mean?

    SUBJECT is a word of the book's language (`like for like`), the code of a message (`sum-off`), a verdict
    (`capital-improvement`), a rule (`same-again`), or a thing or cost in any of its words (`cooker hood`).
    """
    from textwrap import wrap

    from ..explain import look_up, subjects
    from ..explain.things import unknown
    from ..spelling import near

    asked = " ".join(subject)
    page = look_up(asked)
    if page is None:
        found = near(asked, subjects())
        hint = f" Did you mean {' or '.join(found)}?" if found else ""
        stop("\n".join(wrap(f'There is no page about "{asked}".{hint}{unknown(asked)}', 100)))
    if page.kind == "message":
        click.echo(page.text)
        return
    click.echo(f"{page.subject}: {page.kind}\n\n{page.text}")
    if page.example:
        click.echo(
            f"\n{page.where or 'For example:'}\n"
            + "\n".join(f"    {line}" for line in page.example.rstrip().split("\n"))
        )
    if page.source:
        click.echo(f"\nSource: {page.source}")
    if page.more:
        click.echo(f"\n{page.more}")
