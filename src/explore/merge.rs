//! Putting the shares of a sweep together.

use super::shard::Shard;
use super::table::{Column, Table};

/// Why tables cannot be put together.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum MergeError {
    /// There is nothing to put together.
    #[error("there is no table to put together")]
    Nothing,
    /// Two tables come from unlike sweeps.
    #[error(
        "{first} and {other} do not belong together: they come from another design, other overrides, other inputs or \
         another version of swept"
    )]
    Unlike {
        /// Name of the first table.
        first: String,
        /// Name of the other.
        other: String,
    },
    /// Two tables were split in unlike ways.
    #[error("{first} is shard {first_shard} and {other} is shard {other_shard}: take one way of splitting")]
    Split {
        /// Name of the first table.
        first: String,
        /// Its share.
        first_shard: Shard,
        /// Name of the other.
        other: String,
        /// Its share.
        other_shard: Shard,
    },
    /// A share is there twice.
    #[error("shard {shard} stands in {first} and in {other}: leave one of them out")]
    Twice {
        /// The share.
        shard: Shard,
        /// Name of the first table.
        first: String,
        /// Name of the other.
        other: String,
    },
    /// Shares are missing.
    #[error("not complete: {} missing", missing(.0))]
    Missing(Vec<Shard>),
}

fn missing(shards: &[Shard]) -> String {
    let names: Vec<String> = shards.iter().map(ToString::to_string).collect();
    match shards.len() {
        1 => format!("shard {} is", names[0]),
        _ => format!("shards {} are", names.join(", ")),
    }
}

/// Puts named tables together to what one run of the whole sweep would have given, whatever their order.
///
/// # Errors
/// Tables that do not belong together, a share twice, shares that are missing.
pub fn merge(tables: Vec<(String, Table)>) -> Result<Table, MergeError> {
    let mut tables = tables;
    tables.sort_by_key(|(_, table)| table.mark.shard);
    together(&tables)?;
    complete(&tables)?;
    let mut parts = tables.into_iter().map(|(_, table)| table);
    let mut whole = parts.next().ok_or(MergeError::Nothing)?;
    whole.mark.shard = Shard::WHOLE;
    parts.for_each(|mut part| whole.rows.append(&mut part.rows));
    Ok(whole)
}

fn together(tables: &[(String, Table)]) -> Result<(), MergeError> {
    let (first, head) = tables.first().ok_or(MergeError::Nothing)?;
    let key = |table: &Table| -> (String, usize, Vec<Column>) {
        (table.mark.sweep.clone(), table.mark.total, table.inputs.clone())
    };
    for (other, table) in &tables[1..] {
        let (first, other) = (first.clone(), other.clone());
        if key(table) != key(head) {
            return Err(MergeError::Unlike { first, other });
        }
        if table.mark.shard.of() != head.mark.shard.of() {
            let (first_shard, other_shard) = (head.mark.shard, table.mark.shard);
            return Err(MergeError::Split { first, first_shard, other, other_shard });
        }
    }
    Ok(())
}

fn complete(tables: &[(String, Table)]) -> Result<(), MergeError> {
    for pair in tables.windows(2) {
        if pair[0].1.mark.shard == pair[1].1.mark.shard {
            let shard = pair[0].1.mark.shard;
            return Err(MergeError::Twice { shard, first: pair[0].0.clone(), other: pair[1].0.clone() });
        }
    }
    let of = tables.first().map_or(0, |(_, table)| table.mark.shard.of());
    let there = |number: usize| tables.iter().any(|(_, table)| table.mark.shard.number() == number);
    let missing: Vec<Shard> = (1..=of).filter(|n| !there(*n)).filter_map(|n| Shard::new(n, of)).collect();
    if missing.is_empty() { Ok(()) } else { Err(MergeError::Missing(missing)) }
}
