import FieldModel
import SwiftUI
import UniformTypeIdentifiers

/// At the kitchen table: the sheet and the pace.
struct BeforeScreen: View {
    let goOn: @MainActor () -> Void
    @Environment(FieldModel.self) private var model
    @State private var choosing = false

    var body: some View {
        Page {
            if let sheet = model.snapshot?.sheet {
                Text(verbatim: sheet.name).letters(.heading)
                Text(verbatim: sheet.grid).letters(.body)
            }
            SaidView()
            Outlined(Labels.openSheet) { choosing = true }
            TextField(text: typed, axis: .vertical) { Text(verbatim: Labels.typeSheet) }
                .letters(.body)
            if !model.draft.sheet.isEmpty {
                Outlined(Labels.carry) { model.carry(model.draft.sheet, as: .toml) }
            }
            if let pace = model.snapshot?.pace {
                Text(verbatim: "\(Labels.pace): \(Figures.whole(pace.doublePacesPer100M))").letters(.body)
            }
            Outlined(Labels.setPace) { model.openPad(.pace) }
        } foot: {
            if model.snapshot?.sheet == nil {
                Primary(Labels.openSheet) { choosing = true }
            } else {
                Primary(Labels.toTheLine, act: goOn)
            }
        }
        .fileImporter(isPresented: $choosing, allowedContentTypes: [.data]) { result in
            if case .success(let file) = result { open(file) }
        }
    }

    private var typed: Binding<String> {
        @Bindable var model = model
        return $model.typedSheet
    }

    /// A file that cannot be read is handed on empty; the core says what is wrong with it.
    private func open(_ file: URL) {
        let lent = file.startAccessingSecurityScopedResource()
        defer { if lent { file.stopAccessingSecurityScopedResource() } }
        let text = (try? String(contentsOf: file, encoding: .utf8)) ?? ""
        model.carry(text, as: file.pathExtension == "toml" ? .toml : .geojson)
    }
}
