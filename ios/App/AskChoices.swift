import FieldModel
import SwiftUI

/// What a question may be answered with, each a touch; a known point that none stands for is typed.
struct AskChoices: View {
    let asking: Draft.Asking
    let question: Draft.Question
    @Environment(FieldModel.self) private var model

    var body: some View {
        switch question {
        case .landmark, .left, .right:
            partOfName
            landmarks
        case .several:
            partOfName
            several
        case .from:
            points { $0 }
            if model.listedPoints.points.isEmpty, model.listedPoints.left == 0 { Named(.noKnownPoint) }
        case .whereSet:
            PartOfName(left: model.settings.left, told: model.settings.told)
            ForEach(model.settings.names, id: \.self) { choice($0, $0) }
        case .towards, .facing, .runTowards:
            points { Labels.towards.text($0) }
            choice(Labels.eitherWay.text, "")
        case .whatIsHere:
            ForEach(Record.PlaceKind.allCases, id: \.self) { choice($0.label.text, $0.rawValue) }
            points { $0 }
        case .figure: ForEach(Record.Figure.allCases, id: \.self) { choice($0.label.text, $0.rawValue) }
        case .side: ForEach(Record.Quarter.allCases, id: \.self) { choice($0.label.text, $0.rawValue) }
        case .ground: ForEach(Record.Trend.allCases, id: \.self) { choice($0.label.text, $0.rawValue) }
        case .landform: ForEach(Record.Landform.allCases, id: \.self) { choice($0.label.text, $0.rawValue) }
        default: EmptyView()
        }
    }

    private func choice(_ name: String, _ answer: String) -> some View {
        Outlined(name, least: Sizes.walking) { model.answer(answer) }
    }

    private var sights: [Sight] { model.listed.sights }

    private var partOfName: PartOfName {
        PartOfName(left: model.snapshot?.sightsLeft, told: [model.listed.told].compactMap { $0 })
    }

    /// The left one is not the right one too.
    private var landmarks: some View {
        ForEach(sights.filter { !asking.answers.contains($0.landmark) }, id: \.landmark) { sight in
            choice("\(sight.landmark)\n\(sight.kind)", sight.landmark)
        }
    }

    private var several: some View {
        ForEach(sights, id: \.landmark) { sight in
            let isMarked = asking.several.contains(sight.landmark)
            Row(isMarked ? .good : .open, sight.landmark, isMarked ? Labels.marked.text : sight.kind) {
                model.touch(sight.landmark)
            }
        }
    }

    /// A known point each; what it is where lines meet, and on which line when that is not sure, stands under its name.
    @ViewBuilder private func points(_ name: @escaping (String) -> String) -> some View {
        let found = model.listedPoints
        PartOfName(left: found.left, told: [found.told].compactMap { $0 })
        ForEach(found.points, id: \.name) { point in
            let kind = point.label?.text
            let line = model.isSureOfLine ? nil : point.line
            choice([name(point.name), kind, line].compactMap { $0 }.joined(separator: "\n"), point.name)
        }
    }
}
