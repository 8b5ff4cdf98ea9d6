"""The lettering of the PDFs as pdfminer.six reads it: every font is carried by the file, and the text is where it is seen.

What a font in a file must have: ISO 32000-1, 9.6.5 (Type 3) and 9.10.3 (ToUnicode). Where a text is to be seen: the strokes of
the same text in the SVG of the sheet, which are no font at all.
"""

import re
import xml.etree.ElementTree as ET

from pdfminer.converter import PDFPageAggregator
from pdfminer.layout import LTChar
from pdfminer.pdfdocument import PDFDocument
from pdfminer.pdfinterp import PDFPageInterpreter, PDFResourceManager
from pdfminer.pdfpage import PDFPage
from pdfminer.pdfparser import PDFParser
from pdfminer.pdftypes import resolve1

MM = 25.4 / 72
SVG = "{http://www.w3.org/2000/svg}"
# a text may stand beside its strokes by this, mm
NEAR = 0.5


def fonts(file):
    """Font dictionaries of all pages of a PDF that is open."""
    for page in PDFPage.create_pages(PDFDocument(PDFParser(file))):
        for font in (resolve1(page.resources.get("Font")) or {}).values():
            yield resolve1(font)


def letters(path, numbers):
    """The letters of some pages of a PDF, in the order in which they are written."""
    resources = PDFResourceManager()
    device = PDFPageAggregator(resources)
    reader = PDFPageInterpreter(resources, device)
    with open(path, "rb") as file:
        for page in PDFPage.get_pages(file, pagenos=numbers):
            reader.process_page(page)
            yield [item for item in device.get_result() if isinstance(item, LTChar)]


def test_every_font_is_carried_by_the_file(sample):
    _, folder, _ = sample
    files = sorted(folder.rglob("*.pdf"))
    assert len(files) > 6
    for path in files:
        with open(path, "rb") as file:
            found = list(fonts(file))
            assert found, path
            for font in found:
                assert font["Subtype"].name == "Type3", path
                assert resolve1(font["ToUnicode"]).get_data().count(b"<") > 10, path
                assert len(font["Widths"]) == font["LastChar"] - font["FirstChar"] + 1
                named = [n.name for n in font["Encoding"]["Differences"] if not isinstance(n, int)]
                assert sorted(named) == sorted(font["CharProcs"]), path
        data = path.read_bytes()
        assert b"Helvetica" not in data and b"MIT OR Apache-2.0" in data, path


def lettered(svg):
    """Texts of a sheet, with their height and the rectangle of their strokes: left, bottom, right, top; mm, y up."""
    root = ET.parse(svg).getroot()
    height = float(root.get("viewBox").split()[3])
    for group in root.iter(f"{SVG}g"):
        if group.get("aria-label") is None:
            continue
        assert group.find(f"{SVG}title").text.strip() == group.get("aria-label").strip()
        numbers = [float(n) for n in re.findall(r"-?[\d.]+", group.find(f"{SVG}path").get("d"))]
        x, y = numbers[0::2], [height - v for v in numbers[1::2]]
        # the pen is a tenth of the height wide (ISO 3098-1, type B)
        size = 10 * float(group.get("stroke-width"))
        yield group.get("aria-label"), size, (min(x), min(y), max(x), max(y))


def test_text_is_where_its_strokes_are(sample):
    _, folder, manifest = sample
    made = [p for p in manifest["parts"] if (folder / "drawings" / f"{p['name']}.svg").exists()]
    numbers = list(range(0, len(made), 9))
    pages = letters(folder / "drawings" / "all-sheets.pdf", numbers)
    titles = level = 0
    for number, chars in zip(numbers, pages):
        texts = list(lettered(folder / "drawings" / f"{made[number]['name']}.svg"))
        assert "".join(c.get_text() for c in chars) == "".join(text for text, *_ in texts)
        for text, size, (left, bottom, right, top) in texts:
            first, last, chars = chars[0], chars[len(text) - 1], chars[len(text) :]
            end = [v * MM for v in (last.x0, last.y0, last.x1, last.y1)]
            upright = abs(first.matrix[1]) > abs(first.matrix[0])
            # the base line starts at the letter's origin; a letter's advance ends 0.2 h behind its strokes
            at = (first.matrix[4] * MM, first.matrix[5] * MM)
            start = bottom if upright else left
            assert abs(start - (at[1] if upright else at[0])) < NEAR, text
            assert abs((end[3] if upright else end[2]) - 0.2 * size - (top if upright else right)) < NEAR, text
            if re.fullmatch(r"[A-IK-PR-Z0-9a-fhik-or-xz .×]*[A-IK-PR-Z0-9a-fhik-or-xz]", text):
                # nothing reaches below the base line
                assert abs((right - at[0]) if upright else (bottom - at[1])) < NEAR, text
                level += 1
        words = made[number]["title"].split()
        shown = " ".join(text for text, *_ in texts)
        titles += all(word in shown for word in words)
    assert titles == len(numbers) and level > 100
