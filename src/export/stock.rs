//! What to buy to make the parts: bars with the lengths to saw, sheets with what is cut from them, and the rest.

use super::beside::short;
use super::nest::Nested;
use super::tables::table;
use crate::catalogue::Catalogue;
use crate::design::Workshop;
use crate::parts::part::PartSet;
use crate::parts::stock::{Bar, Cut, From, Section, bars, other};

/// One line of the list.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Line {
    /// `bar`, `sheet`, `gasket sheet` or `other`.
    pub kind: &'static str,
    /// Trade name of the material.
    pub material: String,
    /// Section of a bar, thickness of a sheet \[mm\].
    pub section: String,
    /// How many pieces are cut.
    pub pieces: usize,
    /// What is cut: count and length, with the part.
    pub cuts: Vec<String>,
    /// Length of all pieces of a bar, saw cuts included \[mm\].
    pub total_mm: Option<f64>,
    /// Length of a bar, or width and length of a sheet \[mm\].
    pub size: String,
    /// How many to buy, or to take from the shelf.
    pub to_buy: Option<usize>,
    /// Area of the pieces themselves \[mm²\].
    pub net_mm2: Option<f64>,
    /// Area of the rectangles that hold them on their sheets \[mm²\].
    pub used_mm2: Option<f64>,
    /// What to know.
    pub note: String,
}

/// All lines: bars, sheets, other parts.
pub fn lines(set: &PartSet, book: &Catalogue, shop: &Workshop, nests: &[Nested]) -> Vec<Line> {
    let bars = bars(set, book, shop);
    let listed = !shop.stock.is_empty();
    let mut all: Vec<Line> = bars.iter().map(|b| bar(b, listed)).collect();
    all.extend(nests.iter().map(|nest| sheet(nest, shop)));
    all.extend(other(set, book, shop).into_iter().map(|part| {
        Line {
            kind: "other",
            material: part.material.name.clone(),
            pieces: part.quantity,
            cuts: vec![format!("{} x {}", part.quantity, part.name)],
            note: set
                .sheet_of(&part.name)
                .map_or_else(|| "see its drawing".to_owned(), |n| format!("see its drawing, sheet {n}")),
            ..Line::default()
        }
    }));
    all
}

/// A line for bars; whether the workshop has a list of its own.
fn bar(bar: &Bar, listed: bool) -> Line {
    // to the next tenth: a saw knows no less
    let tenth = |length: f64| short((length * 10.0 - 1e-6).ceil() / 10.0);
    let cut = |c: &Cut| format!("{} x {} {}", c.count, tenth(c.length_mm), c.part);
    let longest = bar.cuts.first().map_or(0.0, |c| c.length_mm);
    let note = match bar.from {
        _ if bar.bar_mm.is_some_and(|bar| longest > bar) => "a piece is longer than the bar",
        From::Own => "on your list",
        From::Dealer if listed => "not on your list: the least that dealers keep",
        From::Dealer => "",
        From::Nowhere if matches!(bar.section, Section::Tube(..)) => {
            "drawn tube of this size, or bored from the next round bar"
        }
        From::Nowhere => "no size that dealers keep: sawn from plate or a larger bar",
    };
    Line {
        kind: "bar",
        material: bar.material.clone(),
        section: match bar.section {
            Section::Round(d) => format!("round {}", short(d)),
            Section::Tube(outer, bore) => format!("tube {}, bore {}", short(outer), short(bore)),
            Section::Flat(w, t) if w == t => format!("square {}", short(w)),
            Section::Flat(w, t) => format!("flat {} x {}", short(w), short(t)),
        },
        pieces: bar.pieces(),
        cuts: bar.cuts.iter().map(cut).collect(),
        total_mm: Some(bar.total_mm()),
        size: bar.bar_mm.map(short).unwrap_or_default(),
        to_buy: bar.needed(),
        note: note.to_owned(),
        ..Line::default()
    }
}

fn sheet(nest: &Nested, shop: &Workshop) -> Line {
    let group = &nest.group;
    let tightened = format!("{} when tightened", short(group.thickness_mm));
    let larger = format!("larger than the sheet: {}", nest.left_out.join(", "));
    let notes = [(group.sheet_mm != group.thickness_mm, tightened), (!nest.left_out.is_empty(), larger)];
    Line {
        kind: if group.is_gasket { "gasket sheet" } else { "sheet" },
        material: group.material.clone(),
        section: format!("sheet {}", short(group.sheet_mm)),
        pieces: group.pieces(),
        cuts: group.parts.iter().map(|p| format!("{} x {}", p.quantity, p.name)).collect(),
        size: match &nest.used_mm[..] {
            // a single piece that is no gasket: the least rectangle in whole millimetres that holds it with the allowance
            [[w, l]] if !nest.is_worth_a_file() => {
                let edges = 2.0 * (shop.sheet_gap_mm.value - shop.blank_allowance_mm.value);
                let whole = |side: f64| short((side - edges - 1e-6).ceil());
                format!("{} x {}", whole(*w), whole(*l))
            }
            _ => format!("{} x {}", short(shop.sheet_width_mm.value), short(shop.sheet_length_mm.value)),
        },
        to_buy: Some(nest.cut.len()),
        net_mm2: Some(group.net_mm2()),
        used_mm2: Some(nest.used_mm.iter().map(|[w, l]| w * l).sum()),
        note: notes.into_iter().filter(|(said, _)| *said).map(|(_, n)| n).collect::<Vec<_>>().join("; "),
        ..Line::default()
    }
}

/// `tables/stock.csv`.
///
/// # Errors
/// When the table cannot be formed: a fault of the program.
pub fn csv(lines: &[Line]) -> Result<Vec<u8>, String> {
    let head = [
        "kind",
        "material",
        "section_mm",
        "pieces",
        "cuts_mm",
        "total_mm",
        "stock_size_mm",
        "to_buy",
        "net_area_mm2",
        "used_area_mm2",
        "note",
    ];
    let tenth = |v: Option<f64>| v.map(|v| format!("{v:.1}")).unwrap_or_default();
    let row = |l: &Line| {
        vec![
            l.kind.to_owned(),
            l.material.clone(),
            l.section.clone(),
            l.pieces.to_string(),
            l.cuts.join("; "),
            tenth(l.total_mm),
            l.size.clone(),
            l.to_buy.map(|n| n.to_string()).unwrap_or_default(),
            tenth(l.net_mm2),
            tenth(l.used_mm2),
            l.note.clone(),
        ]
    };
    table(&head, lines.iter().map(row))
}
