//! Generates the foreign halves of the boundary from the built library.

fn main() {
    uniffi::uniffi_bindgen_main();
}
