//! The library that phones load is linked with its relocations packed, half a megabyte less of it: Android reads one way of packing since
//! version 6, desk Linux (glibc 2.36) another.

fn main() {
    println!("cargo::rerun-if-changed=build.rs");
    let of = |name: &str| std::env::var(name).unwrap_or_default();
    match (of("CARGO_CFG_TARGET_OS").as_str(), of("PROFILE").as_str()) {
        ("android", _) => println!("cargo::rustc-cdylib-link-arg=-Wl,--pack-dyn-relocs=android"),
        ("linux", "release") => println!("cargo::rustc-cdylib-link-arg=-Wl,-z,pack-relative-relocs"),
        _ => {}
    }
}
