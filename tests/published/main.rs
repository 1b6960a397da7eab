//! Checks against what others have published. Each names its source.

mod body;
mod ciede2000;
mod ease;
mod edtf;
mod fibres;
mod fit;
mod fountain;
mod gower;
mod lab;
mod lay;
mod orientation;
mod p_median;
mod proposals;
mod units;
mod webster;
