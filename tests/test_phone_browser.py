"""The page for the phone in Chromium, as large as a phone's window and a desk's: two touches to a number, nothing to
scroll sideways, nothing that runs, asks or complains, a way about for fingers, keys and readers aloud.

Needs Chromium (Debian: chromium-headless-shell); axe-core, where ``.ci/run`` has put it.
"""

from __future__ import annotations

import base64
import re
from itertools import pairwise
from pathlib import Path
from typing import Any

import pypdfium2
import pytest
from browser import PHONE, Browser, Tab, tab
from phone_shown import HOSTILE, SIZES, building, chromium, hostile, page, phone, shown, written

from layouts.building import Building
from layouts.lengths import show

__all__ = ["building", "chromium", "hostile", "page", "phone", "shown"]
AXE = Path(__file__).parents[1] / ".axe" / "node_modules" / "axe-core" / "axe.min.js"
TOUCH = 44  # CSS pixels: WCAG 2.2, success criterion 2.5.5 (from memory)
CONTRAST = 7.0  # WCAG 2.2, success criterion 1.4.6 (from memory)

OPEN = "document.querySelectorAll('details').forEach(d => d.open = true)"
LARGE = "document.querySelectorAll('.zoom').forEach(z => z.checked = true)"
SCROLLS = "document.documentElement.scrollWidth > document.documentElement.clientWidth"

# until the strip of tags stands still: it snaps
RESTS = """(async () => {
  const strip = document.querySelector('.strip');
  for (let still = 0, at = -1; still < 4; at = strip.scrollLeft) {
    await new Promise(done => setTimeout(done, 60));
    still = strip.scrollLeft === at ? still + 1 : 0;
  }
})()"""


def fetched_and_said(shown: Tab) -> list[Any]:
    """What it asked for besides itself, and what went to the console."""
    return [*shown.requests()[1:], *shown.complaints()]


# --- it stands by itself ----------------------------------------------------------------------------------------------


def test_nothing_to_scroll_sideways_nothing_asked_for_nothing_complained_of(shown: Tab, page: Path) -> None:
    assert not shown.js(SCROLLS)
    assert shown.js("[...document.fonts].map(f => f.status)") == ["loaded", "loaded"]
    shown.js(OPEN)
    shown.js(LARGE)
    assert not shown.js(SCROLLS), "every sheet open and large: each scrolls in its own frame"
    wide = shown.js("[...document.querySelectorAll('.scroll')].map(s => s.scrollWidth)")
    assert min(wide) > 8 * 140, "8 in of paper and more"
    assert shown.requests() == [page.resolve().as_uri()]
    assert shown.complaints() == []


def test_a_viewer_that_throws_the_typeface_away_shows_whole_numbers(
    chromium: Browser, page: Path, tmp_path: Path
) -> None:
    """Another typeface, here a wide one: nothing sticks out of its place, in the list or in a picture."""
    bare = tmp_path / "bare.html"
    bare.write_text(re.sub("base64,[^)]*", "base64,AAAA", page.read_text(encoding="utf-8")), encoding="utf-8")
    with tab(chromium, PHONE, bare) as shown:
        assert "loaded" not in shown.js("[...document.fonts].map(f => f.status)")
        assert not shown.js(SCROLLS)
        assert shown.js("(l => l.scrollWidth <= l.clientWidth)(document.querySelector('.list'))")
        longer = shown.js(
            "Math.max(...[...document.querySelectorAll('.tag text')]"
            ".map(t => t.getComputedTextLength() / t.textLength.baseVal.value))"
        )
        assert longer < 1.01


def test_the_policy_would_stop_what_is_not_ours(chromium: Browser, page: Path, tmp_path: Path) -> None:
    """What the test before relies on: a request and a script are seen, and the file's own policy refuses both."""
    bad = tmp_path / "bad.html"
    text = page.read_text(encoding="utf-8")
    bad.write_text(text.replace("<main>", "<main><script>alert(1)</script><img src=a.png>", 1), encoding="utf-8")
    with tab(chromium, PHONE, bad) as shown:
        said = str(fetched_and_said(shown))
        assert "script" in said
        assert "a.png" in said
        assert not shown.told("Page.javascriptDialogOpening")


def test_a_hostile_name_runs_nothing_and_loads_nothing(chromium: Browser, hostile: Path) -> None:
    with tab(chromium, PHONE, hostile) as shown:
        shown.js(OPEN)
        assert fetched_and_said(shown) == []
        assert shown.js("document.title") == f"{HOSTILE} · packet"
        assert shown.js("document.querySelector('h1').textContent") == HOSTILE
        assert shown.js("document.querySelector('#warnings li').textContent") == HOSTILE
        assert (
            shown.js("document.querySelectorAll('script, img, iframe, svg svg, svg a, [onclick], [onload]').length")
            == 0
        )
        assert not shown.js(SCROLLS), "a name without a space to break at"


# --- in the yard ------------------------------------------------------------------------------------------------------


def offset_seen(shown: Tab, name: str) -> str:
    """The largest figures in sight within a tag that is called *name*."""
    found: str = shown.js(
        f"""(() => {{
          const tag = document.getElementById('tag-{name}'), box = tag.getBoundingClientRect();
          if (box.left < -1 || box.right > innerWidth + 1) return 'not in sight';
          const words = [...tag.querySelectorAll('text')].filter(t => {{
            const b = t.getBoundingClientRect();
            return b.top > 0 && b.bottom < innerHeight;
          }});
          return words.map(t => t.textContent).join('|');
        }})()"""
    )
    return found


def test_two_touches_lead_to_any_columns_offset(phone: Tab, building: Building) -> None:
    for column in building.columns[::5]:
        phone.touch("Columns")
        phone.touch(column.name)
        whole = show(column.offset, building.job.style).split()[0]
        seen = offset_seen(phone, column.name).split("|")
        assert column.name in seen
        assert whole.rstrip('"') in [words.rstrip('"') for words in seen]
        wide = phone.js(f"document.querySelector('#tag-{column.name} svg').getBoundingClientRect().width")
        assert wide == PHONE[0], "as large as the phone is wide"


def test_one_swipe_a_tag(phone: Tab, building: Building) -> None:
    phone.touch("Tags")
    names = [column.name for column in building.columns[:3]]
    for name in names:
        assert offset_seen(phone, name) != "not in sight"
        phone.swipe(500, 320, 80)
        phone.js(RESTS)
    assert offset_seen(phone, building.columns[3].name) != "not in sight"


def test_a_sheet_is_two_touches_away_and_grows_at_a_third(phone: Tab) -> None:
    phone.touch("Pages")
    phone.touch("Wall diagrams")
    phone.touch("Wall A")
    frame = "document.querySelector('details[open] details[open] .scroll')"
    assert phone.js(f"{frame}.scrollWidth <= {frame}.clientWidth + 1")
    phone.touch("Large")
    assert phone.js(f"{frame}.scrollWidth > 3 * {frame}.clientWidth")


def test_everything_to_touch_is_large_enough(phone: Tab) -> None:
    phone.js(OPEN)
    small = phone.js(
        f"""[...document.querySelectorAll('a, summary, label')].filter(e => !e.matches('.skip')).filter(e => {{
          const b = e.getBoundingClientRect();
          return b.height < {TOUCH} || b.width < {TOUCH};
        }}).map(e => e.outerHTML)"""
    )
    assert small == []


def test_on_paper_it_is_one_line(phone: Tab) -> None:
    pdf = base64.b64decode(phone.call("Page.printToPDF")["data"])
    with pypdfium2.PdfDocument(pdf) as document:
        words = [" ".join(sheet.get_textpage().get_text_range().split()) for sheet in document]
    assert words == ["Print packet.pdf at actual size instead; this page is not to scale."]


# --- for everyone -----------------------------------------------------------------------------------------------------


def test_black_on_white(shown: Tab) -> None:
    """Every word outside the pictures; the pictures are black on white by their own rules."""
    shown.js(OPEN)
    worst = shown.js(
        """(() => {
          const light = c => {
            const [r, g, b] = c.match(/[0-9.]+/g).map(n => n / 255)
              .map(n => n <= 0.04045 ? n / 12.92 : ((n + 0.055) / 1.055) ** 2.4);
            return 0.2126 * r + 0.7152 * g + 0.0722 * b;
          };
          const ground = e => {
            const c = e ? getComputedStyle(e).backgroundColor : 'rgb(255, 255, 255)';
            return c.startsWith('rgba') ? ground(e.parentElement) : c;
          };
          const all = [...document.body.querySelectorAll('*')].filter(e => !e.closest('svg') && e.innerText);
          return Math.min(...all.map(e => {
            const [a, b] = [light(getComputedStyle(e).color), light(ground(e))].sort((x, y) => y - x);
            return (a + 0.05) / (b + 0.05);
          }));
        })()"""
    )
    assert worst >= CONTRAST


def test_by_keys_alone(shown: Tab) -> None:
    """The first key shows a way past the head; what has the keys is seen to have them; all opens and grows by keys."""
    focus = "document.activeElement"
    shown.key("Tab")
    assert shown.js(f"{focus}.className") == "skip"
    assert shown.js(f"{focus}.getBoundingClientRect().top") >= 0
    shown.key("Enter")
    assert shown.js("location.hash") == "#warnings"
    shown.key("Tab")
    assert shown.js(f"{focus}.closest('.pick') !== null"), "on from the warnings"
    assert shown.js(f"getComputedStyle({focus}).outlineStyle") == "solid"
    shown.js("document.querySelector('.kind summary').focus()")
    shown.key("Enter")
    shown.key("Tab")
    shown.key("Enter")
    assert shown.js("document.querySelectorAll('details[open]').length") == 2
    shown.key("Tab")
    shown.key("Space")
    assert shown.js(f"{focus}.type + {focus}.checked") == "checkboxtrue"
    shown.key("Tab")
    assert shown.js(f"{focus}.className") == "scroll"


def test_a_reader_aloud_is_told_what_there_is(phone: Tab, building: Building) -> None:
    """The accessibility tree: landmarks, headings one under the other, a table with heads, every picture and control
    with a name, a tag's offset and cuts in the name of its picture."""
    nodes = [n for n in phone.call("Accessibility.getFullAXTree")["nodes"] if not n["ignored"]]
    told = [(n["role"]["value"], n.get("name", {}).get("value", "")) for n in nodes]
    roles = [role for role, _ in told]
    for once in ("banner", "main", "contentinfo", "navigation", "table"):
        assert roles.count(once) == 1
    assert [name for role, name in told if role == "columnheader"] == [
        "Column",
        "Offset, up from the bottom end",
        "Cuts, from the bottom end",
    ]
    assert roles.count("rowheader") == len(building.columns) + len(building.grade.unread)
    named = [
        pair for pair in told if pair[0] in ("image", "link", "DisclosureTriangle", "checkbox", "region", "heading")
    ]
    assert all(name.strip() for _, name in named)
    pictures = [name for role, name in told if role == "image"]
    style = building.job.style
    for column, name in zip(building.columns, pictures, strict=True):
        assert name.startswith(f"Tag {column.name}, stamp ")
        assert f"offset {show(column.offset, style)}, up from the bottom end" in name
        assert all(f"{c.name}: {c.where}: {show(column.up(c.station), style)}" in name for c in column.cuts)
    levels = [n["properties"][0]["value"]["value"] for n in nodes if n["role"]["value"] == "heading"]
    assert levels[0] == 1
    assert all(after <= before + 1 for before, after in pairwise(levels))


@pytest.mark.parametrize("size", SIZES)
def test_axe_finds_nothing(chromium: Browser, building: Building, size: str, tmp_path: Path) -> None:
    """All of its rules on the tags' page, every sheet open; other kinds have the same frames. Contrast is measured
    above: here it would look for the ground of each word of each sheet."""
    if not AXE.exists():
        pytest.skip(f"needs axe-core (npm install --prefix .axe axe-core): {AXE}")
    with tab(chromium, SIZES[size], written(building, tmp_path, "tags")) as shown:
        shown.js(OPEN)
        check(shown)


def check(shown: Tab) -> None:
    shown.js(AXE.read_text(encoding="utf-8") + "; 1")
    rules = "{rules: {'color-contrast': {enabled: false}, 'target-size': {enabled: true}}}"
    found = shown.js(
        f"axe.run(document, {rules}).then(r => ({{good: r.passes.map(p => p.id),"
        " bad: [...r.violations, ...r.incomplete].map(v => [v.id, v.nodes[0].html])}))"
    )
    assert found["bad"] == []
    assert {"svg-img-alt", "scrollable-region-focusable", "heading-order", "th-has-data-cells"} <= set(found["good"])
