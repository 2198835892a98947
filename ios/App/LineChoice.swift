import FieldModel
import SwiftUI

/// Which line are you on? One, one of several, or none.
struct LineChoice: View {
    @Environment(FieldModel.self) private var model

    var body: some View {
        if let touched = model.draft.unsure {
            Named(.whichLines, size: .heading)
            let unlisted = touched.filter { name in !lines.contains { $0.name == name } }
            partOfName
            ForEach(unlisted, id: \.self) { name in
                Row(.good, name, Labels.marked.text) { model.touch(line: name) }
            }
            ForEach(lines, id: \.name) { line in
                let isMarked = touched.contains(line.name)
                Row(isMarked ? .good : .open, line.name, isMarked ? Labels.marked.text : line.kind) {
                    model.touch(line: line.name)
                }
            }
            Outlined(.goBack) { model.shutChoice() }
        } else {
            Named(.whichLine, size: .heading)
            partOfName
            ForEach(lines, id: \.name) { line in
                Outlined("\(line.name)\n\(line.kind)", least: Sizes.walking) { model.choose(line: line.name) }
            }
            if isOneOfSeveral { Outlined(.notSureWhich, least: Sizes.walking) { model.beUnsure() } }
            Outlined(.onNoLine, least: Sizes.walking) { model.chooseNoLine() }
            if model.stand != nil { Outlined(.goBack) { model.shutChoice() } }
        }
    }

    private var lines: [Line] { model.listedLines.lines }

    private var isOneOfSeveral: Bool { (model.snapshot?.sheet?.lines.count ?? 0) > 1 }

    private var partOfName: PartOfName {
        PartOfName(
            left: model.snapshot?.sheet?.linesLeft, told: [model.listedLines.told].compactMap { $0 })
    }
}

/// Where one stands, and the way to say it otherwise.
struct StandView: View {
    @Environment(FieldModel.self) private var model

    var body: some View {
        switch model.stand {
        case .line(let line): Named(.onLine, line, size: .heading)
        case .oneOf(let lines):
            Named(.notSureWhich, size: .heading)
            Sentences(lines)
        case .open: Named(.onNoLine, size: .heading)
        case nil: EmptyView()
        }
        Outlined(.changeLine) { model.edit { $0.choosing = true } }
    }
}

/// What the bearing is read with.
struct InstrumentChoice: View {
    @Environment(FieldModel.self) private var model

    var body: some View {
        let chosen = model.draft.instrument ?? .baseplate
        Named(.readWith, chosen.label.text, size: .label)
        ForEach(Record.Instrument.allCases, id: \.self) { instrument in
            if instrument != chosen {
                Outlined(instrument.label) { model.edit { $0.instrument = instrument } }
            }
        }
    }
}

extension Record.Instrument {
    var label: Labels {
        switch self {
        case .sighting: .instrumentSighting
        case .baseplate: .instrumentBaseplate
        case .quick: .instrumentQuick
        case .phone: .instrumentPhone
        }
    }
}
