import FieldModel
import SwiftUI

@main
struct GatepostApp: App {
    @State private var model: FieldModel
    @State private var witnesses: Witnesses
    @State private var tones = Tones()
    @AppStorage("light") private var light = Lighting.day
    @Environment(\.scenePhase) private var phase

    init() {
        let model = FieldModel(logbook: Self.logbook, utcOffsetMin: { Self.utcOffsetMin })
        _model = State(wrappedValue: model)
        _witnesses = State(
            wrappedValue: Witnesses(model: model, positions: ReceiverWitness(), fields: MagnetWitness()))
    }

    var body: some Scene {
        WindowGroup {
            PlacesView(light: $light)
                .environment(model)
                .environment(witnesses)
                .environment(tones)
                .environment(\.theme, Theme(light))
                .preferredColorScheme(light == .night ? .dark : .light)
                .task(id: phase) { await keepPresent() }
        }
    }

    /// Ages and light are those of now: at the start, on coming back, and every minute between.
    private func keepPresent() async {
        while phase == .active, !Task.isCancelled {
            model.refresh()
            try? await Task.sleep(for: .seconds(60))
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

    /// In the zone that the phone is in now.
    private static var utcOffsetMin: Int32 { Int32(TimeZone.autoupdatingCurrent.secondsFromGMT() / 60) }
}
