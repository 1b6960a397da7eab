//! Checks against what others have published. Each names its source.

mod edtf;
mod webster;
