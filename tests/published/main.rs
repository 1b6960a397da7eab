//! Checks against what others have published. Each names its source.

mod ciede2000;
mod edtf;
mod fountain;
mod gower;
mod p_median;
mod webster;
