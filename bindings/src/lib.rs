//! The boundary.
