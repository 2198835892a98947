import FieldModel
import SwiftUI

@main
struct GatepostApp: App {
    @State private var model = FieldModel(logbook: Self.logbook, utcOffsetMin: Self.utcOffsetMin)
    // The app asks for no permission: every witness is silent until an adapter takes its place here.
    @State private var witnesses = Witnesses()
    @AppStorage("light") private var light = Lighting.day

    var body: some Scene {
        WindowGroup {
            PlacesView(light: $light)
                .environment(model)
                .environment(witnesses)
                .environment(\.theme, Theme(light))
                .preferredColorScheme(light == .night ? .dark : .light)
                .task { await witnesses.listen() }
                .task {
                    while !Task.isCancelled {
                        model.refresh()
                        try? await Task.sleep(for: .seconds(30))
                    }
                }
        }
    }

    /// The logbook's file; its folder is backed up with the phone.
    private static var logbook: URL? {
        let files = FileManager.default
        guard let folder = files.urls(for: .applicationSupportDirectory, in: .userDomainMask).first else { return nil }
        // When the folder cannot be made the core refuses to open the file and says so.
        try? files.createDirectory(at: folder, withIntermediateDirectories: true)
        return folder.appendingPathComponent("field.gatepost")
    }

    private static var utcOffsetMin: Int32 { Int32(TimeZone.current.secondsFromGMT() / 60) }
}
