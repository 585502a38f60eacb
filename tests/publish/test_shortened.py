"""Scripts as they are sent: the same steps in fewer letters."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from workeven.publish.shortened import shortened, signs

SCRIPTS = sorted(
    (Path(__file__).parents[2] / "plugins/workeven/publish/theme/scripts").glob("*.js")
)


@pytest.mark.parametrize(
    ("text", "short"),
    [
        ("const one = 1;\nconst two = one + +one;\n", "const e=1;const t=e+ +e;"),
        ("for (const row of rows) row.rows(row);", "for(const e of rows)e.rows(e);"),
        ("const { at, by: [one] } = it;\nat(one);", "const{at:e,by:[t]}=it;e(t);"),
        ("const make = (tag, more) => ({ tag, more: 1 });", "const e=(e,t)=>({tag:e,more:1});"),
        ("function f(a) { return g; }\nconst g = f(1);", "function e(e){return t;}\nconst t=e(1);"),
        ("const t = e => document;\nt(1);", "const t=e=>document;t(1);"),
        ("const a = `x ${ b => `${ b } / ${ a }` } y`;", "const e=`x ${t=>`${t} / ${e}`} y`;"),
        ('const a = "a // b"; // a\n/* a */ a / 2 / a;', 'const e="a // b";e/2/e;'),
        ("const a = /[/]a\\/b/g.exec(a);", "const e=/[/]a\\/b/g.exec(e);"),
        (
            "try { lock = 1; } catch { wants(); }\nlet lock;",
            "try{lock=1;}catch{wants();}\nlet lock;",
        ),
        ("let a\nlet b\n(a)", "let e\nlet t\n(e)"),
    ],
)
def test_a_name_of_its_own_becomes_a_letter(text: str, short: str) -> None:
    """One that nobody else has there; what is met from outside stays, and so does what is said."""
    assert shortened(text) == short


def test_what_is_no_script_is_refused() -> None:
    """Rather than sent in half."""
    with pytest.raises(ValueError, match="no sign of a script: '# half'"):
        shortened("const one = 1; # half")


@pytest.mark.parametrize("path", SCRIPTS, ids=lambda path: path.stem)
def test_a_script_keeps_its_signs(path: Path) -> None:
    """Names differ, and a key has its own name said behind it; all else is there, in its order."""
    text = path.read_text("utf-8")
    before, behind = (
        [sign for sign in signs(one) if not re.fullmatch(r"\s|[A-Za-z_$][\w$]*|:", sign)]
        for one in (text, shortened(text))
    )
    assert before == behind
