"""Templates and drawings as PDF, measured with pdfminer.six, which knows nothing of how they were made."""

import itertools
import math

import pytest
from conftest import SAMPLES, build
from pdfminer.high_level import extract_pages, extract_text
from pdfminer.layout import LTCurve, LTFigure
from pdfminer.pdfdocument import PDFDocument
from pdfminer.pdfpage import PDFPage
from pdfminer.pdfparser import PDFParser

MM = 25.4 / 72
# a printed length may be off by this, mm
NEAR = 0.05


def curves(page):
    """Point lists of all drawn lines of a page, in mm."""
    found, waiting = [], list(page)
    while waiting:
        item = waiting.pop()
        if isinstance(item, LTFigure):
            waiting += list(item)
        elif isinstance(item, LTCurve):
            found.append([(x * MM, y * MM) for x, y in item.pts])
    return found


def circles(page):
    """Centre and radius of every whole circle: points spread evenly at one distance from their mean."""
    for points in curves(page):
        ring = points[:-1] if len(points) > 2 and math.dist(points[0], points[-1]) < 1e-3 else points
        if len(ring) < 6:
            continue
        centre = tuple(sum(c) / len(ring) for c in zip(*ring))
        radii = [math.dist(centre, p) for p in ring]
        if max(radii) - min(radii) < 0.01:
            yield centre, sum(radii) / len(radii)


def crosses(page):
    """Centres where a level and an upright line of 6 mm halve each other: marks for the punch."""
    straight = [c for c in curves(page) if len(c) == 2]
    level = [c for c in straight if abs(c[0][1] - c[1][1]) < 1e-3 and abs(math.dist(*c) - 6) < 0.01]
    upright = [c for c in straight if abs(c[0][0] - c[1][0]) < 1e-3 and abs(math.dist(*c) - 6) < 0.01]
    middle = lambda c: tuple((a + b) / 2 for a, b in zip(*c))
    return [middle(a) for a in level for b in upright if math.dist(middle(a), middle(b)) < 0.01]


def bars(page):
    """Lengths of level and upright lines, mm."""
    straight = [c for c in curves(page) if len(c) == 2]
    level = [math.dist(*c) for c in straight if abs(c[0][1] - c[1][1]) < 1e-3]
    upright = [math.dist(*c) for c in straight if abs(c[0][0] - c[1][0]) < 1e-3]
    return level, upright


def pages(path):
    return list(extract_pages(str(path), laparams=None))


def distances(points):
    return sorted(math.dist(a, b) for a, b in itertools.combinations(points, 2))


def test_bars_and_paper_are_true(sample):
    _, folder, _ = sample
    templates = sorted((folder / "templates").glob("*.pdf"))
    assert len(templates) >= 6
    for path in templates:
        with open(path, "rb") as file:
            wishes = PDFDocument(PDFParser(file)).catalog["ViewerPreferences"]
        assert wishes["PrintScaling"].name == "None"
        for page in pages(path):
            size = sorted((page.width * MM, page.height * MM))
            assert size == pytest.approx([210, 297], abs=0.01), path
            level, upright = bars(page)
            for lengths, wanted in ((level, 50), (upright, 50), (level, 50.8)):
                assert any(abs(length - wanted) < NEAR for length in lengths), f"{path}: a bar of {wanted} mm"


def test_holes_are_where_the_model_has_them(sample, tmp_path):
    """Distances between all holes of a flat part; small ones as crosses, and as circles where nothing is punched."""
    design, folder, manifest = sample
    cut, _ = build(design, tmp_path, "--set", "outputs.punch_below=0 mm")
    checked = 0
    for part in manifest["parts"]:
        path = folder / "templates" / f"{part['name']}.pdf"
        if not path.exists() or len(pages(path)) > 1 or len(part["holes"]) < 3:
            continue
        of = lambda keep: [h["at_mm"][:2] for h in part["holes"] if keep(h["diameter_mm"])]
        small, large = of(lambda d: d < 8), of(lambda d: d >= 8)
        seen = crosses(pages(path)[0])
        assert distances(seen) == pytest.approx(distances(small), abs=NEAR), part["name"]
        drawn = list(circles(pages(cut / "templates" / path.name)[0]))
        for hole in part["holes"]:
            assert any(abs(2 * r - hole["diameter_mm"]) < NEAR for _, r in drawn), f"{part['name']}: {hole['label']}"
        sizes = {round(h["diameter_mm"], 3) for h in part["holes"]}
        for size in sizes:
            model = [h["at_mm"][:2] for h in part["holes"] if round(h["diameter_mm"], 3) == size]
            paper = [c for c, r in drawn if abs(2 * r - size) < 1e-2]
            assert distances(paper) == pytest.approx(distances(model), abs=NEAR), part["name"]
        checked += len(small) + len(large)
    assert checked >= 10


@pytest.mark.parametrize("paper", ["A4", "letter"])
def test_tiles_match_at_their_seams(paper, tmp_path):
    """Laid with their match marks on one another, both pages show the same line through the overlap."""
    design = next(p for p in SAMPLES if p.stem == "allotment-pump")
    folder, _ = build(design, tmp_path, "--set", f"outputs.template_paper={paper}")
    left, right = pages(folder / "templates" / "flywheel.pdf")
    marks = [sorted(c for c, r in circles(page) if abs(r - 2) < 0.01) for page in (left, right)]
    assert len(marks[0]) == len(marks[1]) == 2
    moves = [(b[0] - a[0], b[1] - a[1]) for a, b in zip(*marks)]
    assert moves[0] == pytest.approx(moves[1], abs=0.01)
    centre, radius = rim(left)
    other, same = rim(right)
    assert 2 * radius == pytest.approx(240, abs=NEAR) and 2 * same == pytest.approx(240, abs=NEAR)
    assert other == pytest.approx((centre[0] + moves[0][0], centre[1] + moves[0][1]), abs=NEAR)


def rim(page):
    """The largest circle that an arc of the page is part of."""
    arcs = (c for c in curves(page) if len(c) >= 3 and math.dist(c[0], c[-1]) > 1)
    return max((around(c[0], c[len(c) // 2], c[-1]) for c in arcs), key=lambda circle: circle[1])


def around(a, b, c):
    """Circle through three points."""
    (ax, ay), (bx, by), (cx, cy) = a, b, c
    d = 2 * (ax * (by - cy) + bx * (cy - ay) + cx * (ay - by))
    x = ((ax**2 + ay**2) * (by - cy) + (bx**2 + by**2) * (cy - ay) + (cx**2 + cy**2) * (ay - by)) / d
    y = ((ax**2 + ay**2) * (cx - bx) + (bx**2 + by**2) * (ax - cx) + (cx**2 + cy**2) * (bx - ax)) / d
    return (x, y), math.dist((x, y), a)


def test_the_set_of_drawings_has_every_sheet_with_its_name(sample):
    _, folder, manifest = sample
    path = folder / "drawings" / "all-sheets.pdf"
    sheets = list((folder / "drawings").glob("*.svg"))
    with open(path, "rb") as file:
        document = PDFDocument(PDFParser(file))
        titles = [title for _, title, *_ in document.get_outlines()]
        boxes = [page.mediabox for page in PDFPage.create_pages(document)]
    assert len(boxes) == len(sheets) == len(titles)
    assert all((round(b[2] * MM), round(b[3] * MM)) in {(210, 297), (420, 297), (594, 420)} for b in boxes)
    made = [p["title"] for p in manifest["parts"] if (folder / "drawings" / f"{p['name']}.svg").exists()]
    assert titles[: len(made)] == made
    assert made[0].split()[0] in extract_text(str(path), page_numbers=[0], laparams=None)
