//! Bores, ring grooves and bosses: what is turned about the axis of a feature.

use super::chain::{self, profile};
use super::clash::{self, Made};
use super::draft::Draft;
use super::error::SolidError;
use super::host::{self, Host, nothing_swallowed};
use super::skin::Skin;
use super::space::Space;
use super::surface::short;
use super::turn::{Station, Turning, leaves};
use crate::shape::loops::Leave;
use crate::shape::recipe::{End, ProfileNode};

impl Draft<'_> {
    /// Takes a bore or a ring groove away.
    pub(super) fn bore(
        &mut self,
        turning: &Turning,
        nodes: &[ProfileNode],
        end: End,
    ) -> Result<(), SolidError> {
        let corners = chain::open(nodes, end, turning.what)?;
        let d = turning.frame.z;
        let (first, entry) = self.gate(turning, corners[0].at.x, 0.0, -d)?;
        let last = corners[corners.len() - 1].at;
        let mut stations = vec![first];
        for corner in &corners[1..corners.len() - 1] {
            stations.push(turning.station(corner.at.x, corner.at.y)?);
        }
        if end != End::Island {
            nothing_swallowed(&self.skins, &entry, turning.what)?;
        }
        let exit = match end {
            End::Through => Some(self.gate(turning, last.x, last.y, d)?),
            _ => None,
        };
        let hosts: Vec<usize> =
            [Some(entry.face), exit.as_ref().map(|e| e.1.face)].into_iter().flatten().collect();
        self.clear(turning, &Space::turned(turning.frame, &corners), &hosts)?;
        match exit {
            Some((ring, exit)) => {
                nothing_swallowed(&self.skins, &exit, turning.what)?;
                self.skins[exit.face].loops.push(ring.wire().inverse());
                stations.push(ring);
            }
            None if end == End::Blind => stations.push(turning.station(0.0, last.y)?),
            None => {
                let ring = turning.station(last.x, 0.0)?;
                self.island(&entry, &ring, turning)?;
                stations.push(ring);
            }
        }
        straight_at_crossings(&stations, &corners, turning.what)?;
        self.skins[entry.face].loops.push(stations[0].wire());
        stations.reverse();
        let back = chain::backwards(&corners);
        self.skins.extend(turning.faces(&stations, &leaves(&back))?);
        Ok(())
    }

    /// Refuses a bore whose space is not free, and keeps its space for the bores that follow.
    fn clear(&mut self, turning: &Turning, space: &Space, hosts: &[usize]) -> Result<(), SolidError> {
        let bodies = clash::bodies(space);
        let meant: Vec<usize> = hosts.iter().map(|h| self.skins[*h].maker).collect();
        clash::with_bores(&self.made, &meant, &bodies, turning.what, &|m| self.name(m))?;
        clash::with_faces(&self.skins, hosts, space, turning.what, &|m| self.name(m))?;
        self.made.push(Made { maker: turning.maker, bodies });
        Ok(())
    }

    /// Cuts the island of a ring groove off its face, with the openings inside it.
    fn island(&mut self, entry: &Host, ring: &Station, turning: &Turning) -> Result<(), SolidError> {
        let mut island = Skin {
            surface: self.skins[entry.face].surface,
            outward: true,
            loops: vec![ring.wire().inverse()],
            maker: turning.maker,
        };
        for i in entry.swallowed.iter().rev() {
            let opening = self.skins[entry.face].loops.remove(*i);
            let fits = [island.clone()];
            host::pick(&fits, &[0], &opening, turning.what)?;
            island.loops.push(opening);
        }
        self.skins.push(island);
        Ok(())
    }

    /// Adds a boss.
    pub(super) fn boss(&mut self, turning: &Turning, nodes: &[ProfileNode]) -> Result<(), SolidError> {
        let corners = chain::open(nodes, End::Blind, turning.what)?;
        let (first, host) = self.flat_gate(turning, corners[0].at.x, 0.0, turning.frame.z)?;
        nothing_swallowed(&self.skins, &host, turning.what)?;
        let space = Space::turned(turning.frame, &corners);
        clash::with_faces(&self.skins, &[host.face], &space, turning.what, &|m| self.name(m))?;
        self.skins[host.face].loops.push(first.wire().inverse());
        let mut stations = vec![first];
        for corner in &corners[1..] {
            stations.push(turning.station(corner.at.x, corner.at.y)?);
        }
        self.skins.extend(turning.faces(&stations, &leaves(&corners))?);
        Ok(())
    }
}

/// Where a chain meets a cylinder, its surface there must be a plain cylinder that reaches past the curve.
fn straight_at_crossings(
    stations: &[Station],
    corners: &[chain::Corner],
    what: &str,
) -> Result<(), SolidError> {
    for (pair, leave) in stations.windows(2).zip(corners.iter().map(|c| c.leave)) {
        let curved = pair.iter().any(|s| s.reach[0] < s.reach[1]);
        let plain = leave == Leave::Line && (pair[0].r - pair[1].r).abs() < chain::TINY;
        if curved && !plain {
            return Err(profile(what, "the surface that meets a cylinder must be a plain cylinder"));
        }
        if curved && pair[0].reach[1] > pair[1].reach[0] - chain::PLACE {
            let depth = short(pair[0].reach[1]);
            return Err(profile(
                what,
                &format!("it meets the cylinder down to depth {depth} mm, deeper than its own step"),
            ));
        }
    }
    Ok(())
}
