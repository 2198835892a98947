// swift-tools-version: 6.0
import PackageDescription

// `ios/run` writes Generated from the Rust library and tells the linker where that library is. On a Mac the library
// comes as the framework that `ios/xcframework` packs; that branch has not been run.
#if os(macOS)
    let library = Target.binaryTarget(
        name: "GatepostBridgeFFI", path: "Generated/GatepostBridgeFFI.xcframework")
    let linked = LinkerSetting.linkedLibrary("c++")
#else
    let library = Target.systemLibrary(name: "GatepostBridgeFFI", path: "Generated/GatepostBridgeFFI")
    let linked = LinkerSetting.linkedLibrary("gatepost_ffi")
#endif

let package = Package(
    name: "Gatepost",
    platforms: [.iOS(.v17), .macOS(.v14)],
    products: [
        .library(name: "FieldModel", targets: ["FieldModel", "ChartList"])
    ],
    targets: [
        library,
        // Mode 5: the compiler of Swift 6.0 fails on some generated code in mode 6.
        .target(
            name: "GatepostBridge", dependencies: ["GatepostBridgeFFI"], path: "Generated/GatepostBridge",
            swiftSettings: [.swiftLanguageMode(.v5)], linkerSettings: [linked]),
        .target(name: "ChartList"),
        .target(name: "FieldModel", dependencies: ["GatepostBridge", "ChartList"]),
        .target(name: "Support", dependencies: ["GatepostBridge"], path: "Tests/Support"),
        .testTarget(name: "CaseFileTests", dependencies: ["Support"]),
        .testTarget(name: "ChartListTests", dependencies: ["ChartList", "GatepostBridge", "Support"]),
        .testTarget(name: "FieldModelTests", dependencies: ["FieldModel", "GatepostBridge", "Support"]),
    ],
    swiftLanguageModes: [.v6]
)
