"""One page of HTML that needs no network: parts are escaped here and nowhere else."""

import base64
import io
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from html import escape

import numpy as np
from numpy.typing import NDArray

from scenekit.errors import one_line

POLICY = "default-src 'none'; img-src data:; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'"
STYLE = """
:root{color-scheme:light dark;--ground:#faf8f3;--panel:#fff;--ink:#20242c;--quiet:#5c6068;--rule:#d6d2c8;
--good:#00694c;--bad:#a83f00;--tile:#8a929e}
@media (prefers-color-scheme:dark){:root{--ground:#16181d;--panel:#1f2229;--ink:#eceae4;--quiet:#a9adb6;
--rule:#3a3e48;--good:#5fd3ad;--bad:#ff9a5c;--tile:#8a929e}}
*{box-sizing:border-box}
body{margin:0;background:var(--ground);color:var(--ink);font:16px/1.5 system-ui,sans-serif}
.page{max-width:70rem;margin:0 auto;padding:1.5rem 1rem 4rem}
h1{font-size:1.9rem;margin:0 0 .2rem}
h2{font-size:1.3rem;margin:2.6rem 0 .6rem;border-top:1px solid var(--rule);
padding-top:1.2rem}h3{font-size:1.02rem;margin:1.4rem 0 .4rem}
p{margin:.4rem 0 .8rem;max-width:46rem}a{color:inherit}.quiet{color:var(--quiet)}
nav a{display:inline-block;margin:.15rem 1rem .15rem 0}
.good,.bad,.note{border-left:.35rem solid var(--quiet);padding:.5rem .9rem;background:var(--panel);
margin:.6rem 0}
.good{border-color:var(--good)}.bad{border-color:var(--bad)}
table{border-collapse:collapse;margin:.6rem 0;width:100%}.wide{overflow-x:auto}
th,td{text-align:left;padding:.3rem .9rem .3rem 0;border-bottom:1px solid var(--rule);vertical-align:top;
overflow-wrap:break-word}th{font-weight:600}td.n,th.n{text-align:right;font-variant-numeric:tabular-nums}
img{max-width:100%;height:auto}img.pixels{image-rendering:pixelated;background:var(--tile)}
.row{display:flex;flex-wrap:wrap;gap:1.1rem;align-items:flex-end}figure{margin:.4rem 0;max-width:100%}
figcaption{color:var(--quiet);font-size:.88rem;overflow-wrap:anywhere}
.chips{display:flex;flex-wrap:wrap;gap:.35rem;padding:0;margin:.5rem 0;list-style:none}
.chips li{width:4.6rem;font-size:.72rem;line-height:1.25;overflow-wrap:anywhere}
.chips span{display:block;height:2.1rem;border:1px solid var(--rule)}
.switch{display:inline-flex;gap:.5rem;align-items:center;margin:.8rem 0;padding:.35rem .7rem;
background:var(--panel);border:1px solid var(--rule)}
.moving{display:inline}.resting{display:none}
body:has(#rest:checked) .moving{display:none}body:has(#rest:checked) .resting{display:inline}
.on-request .to-rest{display:none}.always .to-move{display:none}
@media (prefers-reduced-motion:reduce){.moving{display:none}.resting{display:inline}
body:has(#move:checked) .moving{display:inline}body:has(#move:checked) .resting{display:none}
.to-rest{display:none}}
@media (prefers-reduced-motion:no-preference){.to-move{display:none}}
@media print{.switch,nav{display:none}.moving{display:none}.resting{display:inline}}
"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Section:
    """A part of the page: its heading and its finished parts."""

    title: str
    parts: tuple[str, ...]


def page(title: str, under: str, sections: Sequence[Section], *, quiet: bool = False) -> str:
    """Return the whole page.

    under    a line below the title
    quiet    nothing moves unless the reader asks for it, whatever their system says
    """
    style = STYLE + (_QUIET if quiet else "")
    links = "".join(f'<a href="#s{n}">{text(s.title)}</a>' for n, s in enumerate(sections))
    body = "".join(
        f'<section aria-labelledby="s{n}"><h2 id="s{n}">{text(s.title)}</h2>{"".join(s.parts)}</section>'
        for n, s in enumerate(sections)
    )
    return (
        '<!DOCTYPE html>\n<html lang="en"><head><meta charset="utf-8">'
        f'<meta http-equiv="Content-Security-Policy" content="{POLICY}">'
        '<meta name="viewport" content="width=device-width,initial-scale=1">'
        f"<title>{text(title)}</title><style>{style}</style></head><body><div class=page>"
        f"<header><h1>{text(title)}</h1><p class=quiet>{text(under)}</p>"
        f'<nav aria-label="Sections">{links}</nav>'
        f"{_SWITCHES}</header><main>{body}</main></div></body></html>\n"
    )


_SWITCHES = (
    '<label class="switch to-rest"><input type=checkbox id=rest>Hold moving pictures still</label>'
    '<label class="switch to-move"><input type=checkbox id=move>Let pictures move</label>'
)
_QUIET = (
    ".moving{display:none}.resting{display:inline}body:has(#move:checked) .moving{display:inline}"
    "body:has(#move:checked) .resting{display:none}.to-rest{display:none!important}"
    ".to-move{display:inline-flex!important}"
)


def text(words: str) -> str:
    """Return words as text of a page, on one line; signs that turn the direction of writing are shown."""
    return escape(one_line(words), quote=True)


def paragraph(words: str, kind: str = "") -> str:
    """Return a paragraph; kinds are good, bad, note and quiet."""
    return f'<p class="{kind}">{text(words)}</p>' if kind else f"<p>{text(words)}</p>"


def heading(words: str) -> str:
    """Return a smaller heading."""
    return f"<h3>{text(words)}</h3>"


def table(head: Sequence[str], rows: Iterable[Sequence[object]]) -> str:
    """Return a table; numbers stand to the right."""
    lines = [[str(value) for value in row] for row in rows]
    numeric = [bool(lines) and all(_is_number(row[n]) for row in lines) for n in range(len(head))]

    def cells(tag: str, row: Sequence[str]) -> str:
        marks = [' class="n"' if number else "" for number in numeric]
        return "".join(f"<{tag}{mark}>{text(cell)}</{tag}>" for mark, cell in zip(marks, row, strict=True))

    body = "".join(f"<tr>{cells('td', row)}</tr>" for row in lines)
    top = f"<thead><tr>{cells('th', head)}</tr></thead>"
    return f"<div class=wide><table>{top}<tbody>{body}</tbody></table></div>"


def _is_number(value: str) -> bool:
    return value.replace(".", "", 1).replace("-", "", 1).replace(" px", "").strip().isdigit()


def png(pixels: NDArray[np.uint8]) -> bytes:
    """Return a picture as the bytes of a PNG."""
    from PIL import Image

    buffer = io.BytesIO()
    Image.fromarray(np.ascontiguousarray(pixels)).save(buffer, "PNG", optimize=True)
    return buffer.getvalue()


def figure(
    still: bytes, words: str, size: tuple[int, int], *, moving: bytes = b"", pixels: bool = True
) -> str:
    """Return a picture with its caption; of one that moves, also the one that stands for it at rest.

    still, moving  PNG and APNG
    size           (width, height) in CSS px
    """
    kind = "pixels" if pixels else ""
    shown = _image(still, words, size, kind + (" resting" if moving else ""))
    if moving:
        shown += _image(moving, words, size, f"{kind} moving")
    return f"<figure>{shown}<figcaption>{text(words)}</figcaption></figure>"


def _image(data: bytes, words: str, size: tuple[int, int], kind: str) -> str:
    """Return a picture that is drawn together with its page, so that no look or print comes before it."""
    encoded = base64.b64encode(data).decode("ascii")
    return (
        f'<img class="{kind.strip()}" width={size[0]} height={size[1]} decoding=sync alt="{text(words)}" '
        f'src="data:image/png;base64,{encoded}">'
    )


def row(parts: Iterable[str]) -> str:
    """Return parts beside each other."""
    return f"<div class=row>{''.join(parts)}</div>"


def chips(colours: Iterable[tuple[str, str]]) -> str:
    """Return colours (six hexadecimal digits, words) as patches."""
    marks = [
        f'<li><span style="background:#{int(colour, 16):06x}"></span>{text(words)}</li>'
        for colour, words in colours
    ]
    return f"<ul class=chips>{''.join(marks)}</ul>"
