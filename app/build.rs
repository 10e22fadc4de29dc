//! The module for the browser keeps its relocations: by them `.ci/split` parts it.

fn main() {
    println!("cargo::rerun-if-changed=build.rs");
    if std::env::var("CARGO_CFG_TARGET_FAMILY").is_ok_and(|family| family == "wasm") {
        println!("cargo::rustc-link-arg-bins=--emit-relocs");
    }
}
