import FieldModel
import SwiftUI
import UniformTypeIdentifiers

/// Heights for the sheet from a file on the phone: how far it is, and the way to stop it.
struct BringView: View {
    @Environment(FieldModel.self) private var model
    @State private var choosing = false

    var body: some View {
        VStack(alignment: .leading, spacing: Sizes.between) {
            if let share = model.bringing {
                Named(.bringing)
                Text(verbatim: share).letters(.glance)
                Outlined(.stop, least: Sizes.walking) { model.stopBringing() }
            } else if let file = model.withoutGrid {
                Named(.whichGrid)
                ForEach(grids, id: \.name) { grid in
                    Outlined(grid.told) { Task { await model.bring(file, grid: grid.name) } }
                }
            } else {
                Outlined("\(Labels.bring.text)\n\(Labels.bringNote.text)") { choosing = true }
            }
        }
        .fileImporter(isPresented: $choosing, allowedContentTypes: [.data]) { result in
            if case .success(let file) = result { bring(file) }
        }
    }

    private struct Grid {
        let name: String
        let told: String
    }

    /// That of the sheet, and latitude and longitude on WGS 84.
    private var grids: [Grid] {
        let ofSheet = model.snapshot?.sheet.map { Grid(name: $0.grid, told: $0.grid) }
        return [ofSheet, Grid(name: "EPSG:4326", told: Labels.inLatitude.text)].compactMap { $0 }
    }

    /// A file that cannot be read is handed on empty; the core says what is wrong with it.
    private func bring(_ file: URL) {
        let lent = file.startAccessingSecurityScopedResource()
        defer { if lent { file.stopAccessingSecurityScopedResource() } }
        let bytes = (try? Data(contentsOf: file)) ?? Data()
        Task { await model.bring(BroughtFile(name: file.lastPathComponent, bytes: bytes)) }
    }
}
