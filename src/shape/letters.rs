//! Letters of groups of features and labels of their members: decided here alone, so that a drawing, its template, the list of
//! holes and the manifest call a hole by one name.

use super::recipe::Feature;

/// Features of one name that are made from one side are a group. Those that lie beside the axis come first, since these are
/// the ones that a drawing labels; then what is on the axis or goes in from the edge.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Group<'a> {
    name: &'a str,
    side: i8,
    aside: bool,
}

/// How exactly a direction must run along Z.
const ALONG: f64 = 1e-9;

fn group(f: &Feature) -> Group<'_> {
    let d = f.axis.direction.z;
    let side = if d > 1.0 - ALONG {
        1
    } else if d < ALONG - 1.0 {
        -1
    } else {
        0
    };
    Group { name: &f.name, side, aside: side != 0 }
}

/// Letter and number of every feature, in their order; a feature that is alone in its group has no number.
pub fn labels(features: &[Feature]) -> Vec<(String, Option<usize>)> {
    let mut groups: Vec<(Group, usize)> = Vec::new();
    let mut at = Vec::new();
    for f in features {
        let this = group(f);
        let i = groups.iter().position(|(g, _)| *g == this).unwrap_or_else(|| {
            groups.push((this, 0));
            groups.len() - 1
        });
        groups[i].1 += 1;
        at.push((i, groups[i].1));
    }
    for ((i, _), f) in at.iter().zip(features) {
        let on_axis = f.axis.origin.x.hypot(f.axis.origin.y) < ALONG;
        groups[*i].0.aside &= !(groups[*i].1 == 1 && on_axis);
    }
    let mut order: Vec<usize> = (0..groups.len()).collect();
    // stable: within each kind the first to appear stays first
    order.sort_by_key(|i| !groups[*i].0.aside);
    let place = |i: usize| order.iter().position(|o| *o == i).unwrap_or(i);
    at.into_iter().map(|(i, n)| (letter(place(i)), (groups[i].1 > 1).then_some(n))).collect()
}

/// A label as it is written: `B`, or `B3`.
pub fn written((letter, number): &(String, Option<usize>)) -> String {
    number.map_or_else(|| letter.clone(), |n| format!("{letter}{n}"))
}

/// Letters A to Z, then AA, AB …
fn letter(index: usize) -> String {
    let last = char::from(b'A' + (index % 26) as u8);
    if index < 26 { last.to_string() } else { format!("{}{last}", letter(index / 26 - 1)) }
}
