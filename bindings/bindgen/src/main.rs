//! Generates the foreign halves of the boundary.
fn main() {
    uniffi::uniffi_bindgen_main();
}
