import FieldModel
import SwiftUI
import UniformTypeIdentifiers

/// Heights for the sheet, or lines and landmarks, from a file on the phone: what is asked of it, how far it is, the way to stop it.
struct BringView: View {
    @Environment(FieldModel.self) private var model
    @State private var choosing = false

    var body: some View {
        VStack(alignment: .leading, spacing: Sizes.between) {
            if let share = model.bringing {
                Named(.bringing)
                Text(verbatim: share).letters(.glance)
                Outlined(.stop, least: Sizes.walking) { model.stopBringing() }
            } else if let asked = model.incoming {
                FileQuestion(question: asked.question)
                Outlined(.leave) { model.giveUp() }
            } else {
                Outlined("\(Labels.bring.text)\n\(Labels.bringNote.text)") { choosing = true }
            }
        }
        .fileImporter(isPresented: $choosing, allowedContentTypes: [.data]) { result in
            if case .success(let file) = result { Task { await bring(file) } }
        }
    }

    private func bring(_ file: URL) async {
        model.chosen(BroughtFile(name: file.lastPathComponent, bytes: await file.lentBytes))
    }
}

extension URL {
    /// What stands in a file that was chosen, read off the main actor. One that cannot be read is handed on empty; the core
    /// says what is wrong with it.
    var lentBytes: Data {
        get async {
            await Task.detached {
                let lent = startAccessingSecurityScopedResource()
                defer { if lent { stopAccessingSecurityScopedResource() } }
                return (try? Data(contentsOf: self)) ?? Data()
            }.value
        }
    }
}

/// One question about a file at a time.
struct FileQuestion: View {
    let question: Incoming.Question
    @Environment(FieldModel.self) private var model
    @State private var whom = ""

    var body: some View {
        switch question {
        case .source:
            choices(
                .heightsFrom,
                [
                    ("srtm", Labels.sourceSrtm.text), ("aster", Labels.sourceAster.text),
                    ("third-arc-second", Labels.sourceThirdArcSecond.text), ("laser", Labels.sourceLaser.text),
                    ("unknown", Labels.sourceUnknown.text),
                ])
        case .cover:
            choices(.groundCover, [("open", Labels.coverOpen.text), ("forest", Labels.coverForest.text)])
        case .credit:
            Named(.whoseData)
            TextField(text: $whom, axis: .vertical) { Text(verbatim: Labels.creditField.text) }.letters(.body)
            Outlined(.bringItIn, least: Sizes.walking) { answer(whom) }
        case .grid: choices(.whichGrid, grids)
        }
    }

    @ViewBuilder private func choices(_ asked: Labels, _ all: [(word: String, told: String)]) -> some View {
        Named(asked)
        ForEach(all, id: \.word) { choice in Outlined(choice.told) { answer(choice.word) } }
    }

    /// That of the sheet, and latitude and longitude on WGS 84.
    private var grids: [(word: String, told: String)] {
        let ofSheet = model.snapshot?.sheet.map { (word: $0.grid, told: $0.grid) }
        return [ofSheet, (word: "EPSG:4326", told: Labels.inLatitude.text)].compactMap { $0 }
    }

    private func answer(_ word: String) { Task { await model.answer(word) } }
}
