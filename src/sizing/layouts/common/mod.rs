//! What several layouts share: displacer and its cylinder, piston, block, gland, joints, con rods, flywheel, what sits on
//! the free end of the shaft, gas spaces.

pub mod back_plate;
pub mod balance;
pub mod base;
pub mod block;
pub mod channels;
pub mod checks;
pub mod cooler;
pub mod displacer;
pub mod drive;
pub mod face_ring;
pub mod flywheel;
pub mod gland;
pub mod guide;
pub mod guides;
pub mod hanging;
pub mod hot_side;
pub mod hub;
pub mod joints;
pub mod moving;
pub mod output;
pub mod path;
pub mod piston;
pub mod port;
pub mod pulley;
pub mod seat;
pub mod shaft_end;
pub mod spaces;
pub mod warm;
