import FieldModel
import SwiftUI

/// A sheet from the paper map, one part at a time: which sheet, a line, landmarks.
struct HandScreen: View {
    @Environment(FieldModel.self) private var model

    var body: some View {
        let (typed, hand) = (model.hand, hand)
        Page {
            switch typed.step {
            case .sheet:
                Named(.sheetByHand, size: .heading)
                Field(.sheetName, hand.name)
                Field(.sheetBeginning, hand.beginning)
                Field(.sheetScale, hand.scale)
            case .line:
                Named(.typedLine, size: .heading)
                Field(.lineName, hand.line)
                Field(.lineKind, hand.lineKind)
                TypedList(typed.points) { model.retype(point: $0) }
                Field(.linePoint, hand.point)
                if !typed.point.isEmpty { Outlined(.noteIt) { model.noteTyped() } }
            case .points where typed.lacksLine:
                Named(.pointOnLine, size: .heading)
                PartOfName(
                    left: model.snapshot?.sheet?.linesLeft, told: [model.listedLines.told].compactMap { $0 })
                ForEach(model.listedLines.lines, id: \.name) { line in
                    Outlined("\(line.name)\n\(line.kind)", least: Sizes.walking) { model.place(on: line.name) }
                }
            case .points:
                Named(.typedPoints, size: .heading)
                if typed.adding == .point { Named(.onLine, typed.line) }
                TypedList(typed.knownPoints.map(\.told)) { model.retype(knownPoint: $0) }
                Field(.pointName, hand.knownPoint.name)
                Field(.itsReference, hand.knownPoint.place)
                if typed.knownPoint != .init() { Outlined(.noteIt) { model.noteTyped() } }
            case .landmarks:
                Named(.typedLandmarks, size: .heading)
                TypedList(typed.landmarks.map(\.told)) { model.retype(landmark: $0) }
                Field(.landmarkName, hand.landmark.name)
                Field(.landmarkKind, hand.landmark.kind)
                Field(.landmarkPlace, hand.landmark.place)
                Field(.landmarkHeight, hand.landmark.height)
                if typed.landmark != .init() { Outlined(.noteIt) { model.noteTyped() } }
            }
            Outlined(.goBack) { model.shutPad() }
        } foot: {
            if !typed.lacksLine { Primary(isLast ? ends : .goOn) { model.goOnTyping() } }
        }
    }

    private var isLast: Bool {
        model.hand.step == .landmarks || model.hand.step == .points && model.hand.adding != nil
    }

    private var ends: Labels { model.hand.adding == nil ? .carry : .addTyped }

    private var hand: Binding<Draft.Hand> {
        @Bindable var model = model
        return $model.hand
    }
}

/// What was typed so far; a touch brings it back into its field.
struct TypedList: View {
    let told: [String]
    let retype: @MainActor (Int) -> Void

    init(_ told: [String], retype: @escaping @MainActor (Int) -> Void) {
        (self.told, self.retype) = (told, retype)
    }

    var body: some View {
        ForEach(Array(told.enumerated()), id: \.offset) { one in
            Outlined(one.element) { retype(one.offset) }
                .accessibilityLabel(Text(verbatim: Labels.retype.text(one.element)))
        }
    }
}

/// A field for a line of text under its name.
struct Field: View {
    let name: Labels
    let text: Binding<String>

    init(_ name: Labels, _ text: Binding<String>) { (self.name, self.text) = (name, text) }

    var body: some View {
        Named(name, size: .label)
        TextField(text: text, axis: .horizontal) { Text(verbatim: name.text) }
            .letters(.body)
            .frame(minHeight: Sizes.target)
            .autocorrectionDisabled()
    }
}

extension Draft.KnownPoint {
    fileprivate var told: String { [name, place].filter { !$0.isEmpty }.joined(separator: ", ") }
}

extension Draft.Landmark {
    fileprivate var told: String { [name, kind, place, height].filter { !$0.isEmpty }.joined(separator: ", ") }
}
