// swift-tools-version: 6.0
import PackageDescription

// `ios/run` writes Generated from the Rust library and tells the linker where that library is.
let package = Package(
    name: "Gatepost",
    platforms: [.iOS(.v17), .macOS(.v14)],
    products: [
        .library(name: "FieldModel", targets: ["FieldModel"])
    ],
    targets: [
        .systemLibrary(name: "GatepostBridgeFFI", path: "Generated/GatepostBridgeFFI"),
        // Mode 5: the compiler of Swift 6.0 fails on some generated code in mode 6.
        .target(
            name: "GatepostBridge", dependencies: ["GatepostBridgeFFI"], path: "Generated/GatepostBridge",
            swiftSettings: [.swiftLanguageMode(.v5)], linkerSettings: [.linkedLibrary("gatepost_ffi")]),
        .target(name: "FieldModel", dependencies: ["GatepostBridge"]),
        .target(name: "Support", dependencies: ["GatepostBridge"], path: "Tests/Support"),
        .testTarget(name: "CaseFileTests", dependencies: ["Support"]),
        .testTarget(name: "FieldModelTests", dependencies: ["FieldModel", "GatepostBridge", "Support"]),
    ],
    swiftLanguageModes: [.v6]
)
