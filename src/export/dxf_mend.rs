//! Mends what the `dxf` crate writes.
//!
//! Of its output three things are sound: layers, entities, and the header variables that matter. What
//! is not: R12 with subclass markers (group 100) in its tables, which readers refuse; R2000 without table
//! handles, owners, blocks and a root dictionary; the clock in four header variables and two random
//! identifiers, so that the same drawing never gives the same bytes. The sound records are therefore set
//! into a complete frame of fixed text, one for each version, and every number gets a fixed count of
//! decimals.

use super::dxf::Version;

/// Frame of R2000.
const R2000: &str = include_str!("dxf_frame_r2000.txt");

/// Frame of R12.
const R12: &str = include_str!("dxf_frame_r12.txt");

/// Header variables that are kept, with the version that knows them.
const KEPT: [(&str, bool); 9] = [
    ("$ACADVER", true),
    ("$DWGCODEPAGE", false),
    ("$INSBASE", true),
    ("$EXTMIN", true),
    ("$EXTMAX", true),
    ("$LIMMIN", true),
    ("$LIMMAX", true),
    ("$MEASUREMENT", false),
    ("$INSUNITS", false),
];

/// First handle of layers and entities; those below stand in the frame.
const FIRST_HANDLE: usize = 0x100;

/// A group code and its value.
type Pair = (u16, String);

/// One record: the pair with code 0 (or 9 for a header variable) and all that follow.
type Record = Vec<Pair>;

/// The mended file, with comments for a person at its top.
///
/// # Errors
/// When the crate's output is not what this filter knows: a fault of the program.
pub(super) fn mend(bytes: &[u8], version: Version, comments: &[String]) -> Result<Vec<u8>, String> {
    let text = std::str::from_utf8(bytes).map_err(|e| e.to_string())?;
    let records = records(&pairs(text)?);
    let layers = section(&records, "TABLES").filter(|r| r[0].1 == "LAYER").cloned().collect();
    let entities: Vec<Record> = section(&records, "ENTITIES").cloned().collect();
    let mut handles = Handles { next: FIRST_HANDLE, on: version == Version::R2000 };
    let layers = layer_table(layers, &mut handles);
    let entities: Vec<Record> = entities.into_iter().map(|r| entity(r, &mut handles)).collect();
    let mut out: Vec<Pair> = comments.iter().map(|c| (999, ascii(c))).collect();
    for line in frame(version) {
        match line {
            "@header" => out.extend(header(&records, version, &handles)),
            "@layers" => out.extend(layers.iter().flatten().cloned()),
            "@entities" => out.extend(entities.iter().flatten().cloned()),
            record => out.extend(parsed(record)?),
        }
    }
    out.push((0, "EOF".to_owned()));
    Ok(out.iter().map(written).collect::<String>().into_bytes())
}

/// Lines of the frame of a version, without its comments.
fn frame(version: Version) -> impl Iterator<Item = &'static str> {
    let text = match version {
        Version::R2000 => R2000,
        Version::R12 => R12,
    };
    text.lines().filter(|l| !l.starts_with('#') && !l.is_empty())
}

/// A record of the frame.
fn parsed(line: &str) -> Result<Record, String> {
    let mut words = line.split(' ');
    let name = words.next().unwrap_or_default().to_owned();
    let pair = |word: &str| {
        let (code, value) = word.split_once('=').ok_or(format!("frame: {word}"))?;
        Ok((code.parse().map_err(|_| format!("frame: {word}"))?, value.to_owned()))
    };
    std::iter::once(Ok((0, name))).chain(words.map(pair)).collect()
}

/// Group codes and values of a text.
fn pairs(text: &str) -> Result<Vec<Pair>, String> {
    let lines: Vec<&str> = text.lines().collect();
    let pair = |two: &[&str]| match two {
        [code, value] => {
            let code = code.trim().parse().map_err(|_| format!("group code {code}"))?;
            Ok((code, value.trim().to_owned()))
        }
        _ => Err("half a pair at the end".to_owned()),
    };
    lines.chunks(2).map(pair).collect()
}

/// Pairs gathered into records.
fn records(pairs: &[Pair]) -> Vec<Record> {
    let mut out: Vec<Record> = Vec::new();
    for pair in pairs {
        match out.last_mut() {
            Some(record) if pair.0 != 0 && pair.0 != 9 => record.push(pair.clone()),
            _ => out.push(vec![pair.clone()]),
        }
    }
    out
}

/// The records of a section.
fn section<'a>(records: &'a [Record], name: &str) -> impl Iterator<Item = &'a Record> {
    let starts = move |r: &Record| r.len() > 1 && r[0].1 == "SECTION" && r[1].1 == name;
    let from = records.iter().position(starts).map_or(records.len(), |i| i + 1);
    records[from..].iter().take_while(|r| r[0].1 != "ENDSEC")
}

/// Gives out handles, or none in R12.
struct Handles {
    /// The next one.
    next: usize,
    /// Whether this version has handles.
    on: bool,
}

impl Handles {
    /// Handle and owner as pairs.
    fn take(&mut self, owner: &str) -> Vec<Pair> {
        if !self.on {
            return Vec::new();
        }
        self.next += 1;
        vec![(5, format!("{:X}", self.next - 1)), (330, owner.to_owned())]
    }
}

/// The header: the variables that are kept, and where handles go on.
fn header(records: &[Record], version: Version, handles: &Handles) -> Vec<Pair> {
    let modern = version == Version::R2000;
    let kept = |r: &&Record| KEPT.iter().any(|(name, always)| r[0].1 == *name && (*always || modern));
    let mut out = vec![(0, "SECTION".to_owned()), (2, "HEADER".to_owned())];
    out.extend(section(records, "HEADER").filter(kept).flatten().cloned());
    if modern {
        out.extend([(9, "$HANDSEED".to_owned()), (5, format!("{:X}", handles.next))]);
    }
    out.push((0, "ENDSEC".to_owned()));
    out
}

/// The layer table with its head, handles and owners.
fn layer_table(layers: Vec<Record>, handles: &mut Handles) -> Vec<Record> {
    let mut head = vec![(0, "TABLE".to_owned()), (2, "LAYER".to_owned())];
    if handles.on {
        head.extend([(5, "26"), (330, "0"), (100, "AcDbSymbolTable")].map(|(c, v)| (c, v.to_owned())));
    }
    head.push((70, layers.len().to_string()));
    let on = handles.on;
    let layer = |r: Record| {
        let mut out = vec![r[0].clone()];
        out.extend(handles.take("26"));
        let keep = |p: &&Pair| if on { ![5, 390].contains(&p.0) } else { [2, 70, 62, 6].contains(&p.0) };
        out.extend(r[1..].iter().filter(keep).cloned());
        // The plot style that every layer must point at.
        out.extend(on.then(|| (390, "37".to_owned())));
        out
    };
    let mut out = vec![head];
    out.extend(layers.into_iter().map(layer));
    out.push(vec![(0, "ENDTAB".to_owned())]);
    out
}

/// An entity with handle and owner, or without any in R12.
fn entity(r: Record, handles: &mut Handles) -> Record {
    let mut out = vec![r[0].clone()];
    out.extend(handles.take("11"));
    let on = handles.on;
    out.extend(r.into_iter().skip(1).filter(|p| p.0 != 5 && (on || p.0 != 100)));
    out
}

/// A comment in plain ASCII; other characters as the format's own escapes.
fn ascii(text: &str) -> String {
    let plain = |c: char| match c {
        ' '..='~' => c.to_string(),
        _ => format!("\\U+{:04X}", c as u32),
    };
    text.chars().map(plain).collect()
}

/// A pair as two lines; real numbers with nine decimals and never a minus before zero.
fn written((code, value): &Pair) -> String {
    let real = matches!(code, 10..=59 | 140..=149 | 210..=239);
    let text = match value.parse::<f64>() {
        Ok(number) if real => {
            let text = format!("{number:.9}");
            if text == "-0.000000000" { "0.000000000".to_owned() } else { text }
        }
        _ => value.clone(),
    };
    format!("{code:>3}\r\n{text}\r\n")
}
