//! What the catalogue holds, as plain tables of text for a reader.

use super::belts::belt_sections;
use super::book::Catalogue;
use super::bushes::sintered_bushes;
use super::drill_bushes::drill_bushes;
use super::orings::all_glands;
use super::stock::bar_sizes;
use super::table::Listed;
use super::threads::threads;

/// A table of text.
#[derive(Clone, Debug, PartialEq)]
pub struct Listing {
    /// Name of the list, for example `bearings`.
    pub name: &'static str,
    /// Names of the columns; the last one says where an entry stands.
    pub columns: Vec<&'static str>,
    /// Entries.
    pub rows: Vec<Vec<String>>,
}

/// All lists, in the order of a parts list from the outside in.
pub fn listings(book: &Catalogue) -> Vec<Listing> {
    vec![
        materials(book),
        gases(book),
        gaskets(book),
        bearings(book),
        bushes(book),
        sintered(),
        drilling(),
        linear(book),
        rings(book),
        glands(),
        sections(),
        belts(book),
        screws(book),
        stock(),
        cans(book),
    ]
}

/// A cell.
trait Cell {
    fn cell(&self) -> String;
}

impl Cell for f64 {
    fn cell(&self) -> String {
        format!("{}", (self * 1e4).round() / 1e4)
    }
}

impl Cell for String {
    fn cell(&self) -> String {
        self.clone()
    }
}

impl Cell for &str {
    fn cell(&self) -> String {
        (*self).to_owned()
    }
}

impl Cell for Listed {
    fn cell(&self) -> String {
        self.to_string()
    }
}

impl Cell for Vec<f64> {
    fn cell(&self) -> String {
        self.iter().map(Cell::cell).collect::<Vec<_>>().join(" ")
    }
}

fn row(cells: &[&dyn Cell]) -> Vec<String> {
    cells.iter().map(|cell| cell.cell()).collect()
}

fn listing(name: &'static str, columns: &[&'static str], rows: impl Iterator<Item = Vec<String>>) -> Listing {
    Listing { name, columns: columns.to_vec(), rows: rows.collect() }
}

/// Where an entry stands that keeps its place or its state.
fn standing(own: &Option<String>, status: &str) -> String {
    own.as_ref().map_or_else(|| status.to_owned(), |place| format!("your shelf file, {place}"))
}

fn materials(book: &Catalogue) -> Listing {
    let rows = book.materials.iter().map(|m| {
        let allowed = |t: f64| m.allowable_mpa(t).map_or_else(|| "-".to_owned(), |a| a.round().cell());
        let from = standing(&m.own, &m.status);
        let expansion = (m.expansion_per_k * 1e6).cell();
        row(&[
            &m.name,
            &m.density_kg_m3,
            &m.conductivity_w_m_k(20.0),
            &expansion,
            &allowed(20.0),
            &allowed(400.0),
            &m.service_limit_c,
            &from,
        ])
    });
    let columns = ["name", "kg/m³", "W/(m K)", "µm/(m K)", "MPa 20 °C", "MPa 400 °C", "limit °C", "state"];
    listing("materials", &columns, rows)
}

fn gases(book: &Catalogue) -> Listing {
    let rows = book.gases.iter().map(|g| {
        let gas = &g.gas;
        let (cp, viscosity) = (gas.cp_j_kg_k(300.0).round(), gas.viscosity_pa_s(300.0) * 1e6);
        row(&[
            &g.name,
            &gas.molar_mass_g_mol,
            &cp,
            &gas.gamma(300.0),
            &viscosity,
            &gas.conductivity_w_m_k(300.0),
            &g.from,
        ])
    });
    listing("gases", &["name", "g/mol", "cp J/(kg K)", "gamma", "µPa s", "W/(m K)", "state (at 300 K)"], rows)
}

fn gaskets(book: &Catalogue) -> Listing {
    let rows = book.gasket_sheets.iter().map(|s| {
        row(&[
            &s.name,
            &s.material,
            &s.service_limit_c,
            &s.thicknesses_mm,
            &s.factor_m,
            &s.seating_mpa,
            &standing(&s.own, &s.status),
        ])
    });
    listing("gaskets", &["name", "material", "limit °C", "thicknesses mm", "m", "y MPa", "state"], rows)
}

fn bearings(book: &Catalogue) -> Listing {
    let rows = book.bearings.iter().map(|b| {
        row(&[&b.designation, &b.bore_mm, &b.outer_mm, &b.width_mm, &b.dynamic_n, &b.static_n, &b.from])
    });
    listing("bearings", &["name", "bore mm", "outer mm", "width mm", "C N", "C0 N", "source"], rows)
}

fn bushes(book: &Catalogue) -> Listing {
    let rows = book
        .bushes
        .iter()
        .map(|b| row(&[&b.shaft_mm, &b.housing_mm, &b.shaft_fit, &b.housing_fit, &b.lengths_mm, &b.from]));
    listing("bushes", &["shaft mm", "housing mm", "shaft", "bore", "lengths mm", "source"], rows)
}

fn sintered() -> Listing {
    let rows = sintered_bushes().iter().map(|b| row(&[&b.shaft_mm, &b.outer_mm, &b.lengths_mm, &b.from]));
    listing("sintered-bushes", &["shaft mm", "outer mm", "lengths mm", "source"], rows)
}

fn drilling() -> Listing {
    let rows =
        drill_bushes().iter().map(|b| row(&[&b.over_mm, &b.to_mm, &b.outer_mm, &b.lengths_mm, &b.from]));
    listing("drill-bushes", &["drill over mm", "to mm", "outer mm", "lengths mm", "source"], rows)
}

fn linear(book: &Catalogue) -> Listing {
    let rows = book.linear_bushings.iter().map(|b| {
        row(&[&b.designation, &b.shaft_mm, &b.outer_mm, &b.length_mm, &b.dynamic_n, &b.static_n, &b.from])
    });
    listing("linear-bushings", &["name", "shaft mm", "outer mm", "length mm", "C N", "C0 N", "source"], rows)
}

fn rings(book: &Catalogue) -> Listing {
    let rows = book.rings.iter().map(|r| row(&[&r.designation, &r.inner_mm, &r.section_mm, &r.from]));
    listing("o-rings", &["name", "inner mm", "section mm", "source"], rows)
}

fn glands() -> Listing {
    let rows = all_glands().into_iter().map(|(use_, g, from)| {
        let squeeze = format!("{:.0} to {:.0} %", 100.0 * g.squeeze_min, 100.0 * g.squeeze_max);
        row(&[&g.section_mm, &use_, &g.depth_min_mm, &g.depth_max_mm, &g.width_mm, &squeeze, &from])
    });
    listing(
        "glands",
        &["section mm", "use", "least depth", "most depth", "width mm", "squeeze", "source"],
        rows,
    )
}

fn sections() -> Listing {
    let rows = belt_sections().iter().map(|s| {
        row(&[
            &s.name,
            &s.pitch_mm,
            &s.two_a_mm,
            &s.thickness_mm,
            &s.widths_mm,
            &format!("{}; {}", s.standard, s.status),
        ])
    });
    listing("belt-sections", &["name", "pitch mm", "2a mm", "thickness mm", "widths mm", "source"], rows)
}

fn belts(book: &Catalogue) -> Listing {
    let rows = book
        .belts
        .iter()
        .map(|b| row(&[&b.section, &(b.teeth as f64), &b.pitch_length_mm, &b.availability, &b.from]));
    listing("belts", &["section", "teeth", "length mm", "kept by", "source"], rows)
}

fn screws(book: &Catalogue) -> Listing {
    let rows = threads().iter().map(|t| {
        let own = book.screws.iter().filter(|s| s.thread == t.designation);
        let mut lengths: Vec<f64> = t.cap_screws_mm().chain(own.flat_map(|s| s.lengths_mm.clone())).collect();
        lengths.sort_by(f64::total_cmp);
        row(&[
            &t.designation,
            &t.pitch_mm,
            &t.tap_drill_mm,
            &t.clearance_medium_mm,
            &t.head_diameter_mm,
            &t.counterbore_diameter_mm,
            &t.hex_key_mm,
            &lengths,
            &t.from,
        ])
    });
    let columns = [
        "thread",
        "pitch mm",
        "drill mm",
        "hole mm",
        "head mm",
        "counterbore",
        "key mm",
        "cap screws mm",
        "source",
    ];
    listing("screws", &columns, rows)
}

fn stock() -> Listing {
    let rows = bar_sizes().iter().map(|b| {
        let thickness = b.thickness_mm.map_or_else(|| "-".to_owned(), |t| t.cell());
        row(&[&b.family, &b.shape.name(), &b.size_mm, &thickness, &b.status])
    });
    listing("stock", &["family", "shape", "size mm", "thickness mm", "state"], rows)
}

fn cans(book: &Catalogue) -> Listing {
    let rows = book.cans.iter().map(|c| {
        row(&[
            &c.name,
            &c.diameter_mm,
            &c.length_mm,
            &c.wall_mm,
            &c.material.clone().unwrap_or_default(),
            &c.from,
        ])
    });
    listing("cans", &["name", "diameter mm", "length mm", "wall mm", "material", "source"], rows)
}

impl Listing {
    /// The same with the rows of which a cell but the last holds a word, letter case ignored.
    #[must_use]
    pub fn with(&self, word: &str) -> Self {
        let word = word.to_lowercase();
        let holds = |row: &&Vec<String>| {
            let names = &row[..row.len() - 1];
            names.iter().any(|cell| {
                cell.to_lowercase() == word || (word.len() > 2 && cell.to_lowercase().contains(&word))
            })
        };
        Self { rows: self.rows.iter().filter(holds).cloned().collect(), ..self.clone() }
    }

    /// The table with aligned columns, a line for each entry.
    pub fn text(&self) -> String {
        let width = |i: usize| {
            let cells = self.rows.iter().map(|row| row[i].chars().count());
            cells.max().unwrap_or(0).max(self.columns[i].chars().count())
        };
        let widths: Vec<usize> = (0..self.columns.len()).map(width).collect();
        let line = |cells: &mut dyn Iterator<Item = &str>| {
            let padded: Vec<String> =
                cells.zip(&widths).map(|(cell, width)| format!("{cell:<width$}", width = *width)).collect();
            format!("  {}\n", padded.join("  ").trim_end())
        };
        let head = line(&mut self.columns.iter().copied());
        let rows = self.rows.iter().map(|row| line(&mut row.iter().map(String::as_str)));
        format!("{}\n{head}{}", self.name, rows.collect::<String>())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_list_has_its_columns_filled() {
        for list in listings(Catalogue::standard()) {
            assert!(list.name == "cans" || list.rows.len() > 3, "{}", list.name);
            for row in &list.rows {
                assert_eq!(row.len(), list.columns.len(), "{}", list.name);
                assert!(row.iter().all(|cell| !cell.contains("NaN")), "{row:?}");
                assert!(!row[row.len() - 1].is_empty(), "{row:?} says where it stands");
            }
        }
    }

    #[test]
    fn a_word_finds_entries_and_columns_stand_in_line() {
        let all = listings(Catalogue::standard());
        let bearings = all.iter().find(|list| list.name == "bearings").unwrap();
        let one = bearings.with("608");
        assert_eq!(one.rows.len(), 1);
        let text = one.text();
        let lines: Vec<&str> = text.lines().collect();
        let bore = lines[1].find("bore mm").unwrap();
        assert!(lines[2][bore..].starts_with("8 "), "{text}");
        assert!(lines[2].contains("ISO 15; SEEN"));
    }
}
