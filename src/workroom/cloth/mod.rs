//! Cloth: how much of it, how heavy, how near in colour, how fine to print, and by when to order.

pub mod buy;
pub mod colour;
pub mod lay;
pub mod print;
pub mod trials;
