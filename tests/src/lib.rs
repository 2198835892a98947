//! Helpers of the conformance tests.
