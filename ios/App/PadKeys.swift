import FieldModel
import SwiftUI

/// The keys: figures, and beside or below them the words.
struct PadKeys: View {
    @Environment(FieldModel.self) private var model
    @Environment(\.dynamicTypeSize) private var typeSize

    var body: some View {
        let isLarge = typeSize.isAccessibilitySize
        Grid(horizontalSpacing: Sizes.between, verticalSpacing: Sizes.between) {
            ForEach(Self.rows, id: \.figures) { row in
                GridRow {
                    ForEach(row.figures, id: \.self) { figure in key(figure) }
                    if !isLarge, model.asksBearing { beside(row.word) }
                }
            }
        }
        // Large letters stand below the figures, a row each. Only a bearing has a unit and a north.
        if isLarge, model.asksBearing {
            ForEach(Self.rows.compactMap(\.word), id: \.self) { word in key(word) }
        }
    }

    private static let rows: [(figures: [FieldModel.Key], word: FieldModel.Key?)] = [
        ([.digit(1), .digit(2), .digit(3)], nil), ([.digit(4), .digit(5), .digit(6)], nil),
        ([.digit(7), .digit(8), .digit(9)], .unit), ([.clear, .digit(0), .last], .north),
    ]

    @ViewBuilder private func beside(_ word: FieldModel.Key?) -> some View {
        if let word { key(word) } else { Text(verbatim: "").accessibilityHidden(true) }
    }

    private func key(_ key: FieldModel.Key) -> some View {
        Outlined(name(key), least: Sizes.walking) { model.press(key) }
    }

    private func name(_ key: FieldModel.Key) -> String {
        switch key {
        case .digit(let digit): "\(digit)"
        case .last: Labels.lastOff.text
        case .clear: Labels.clear.text
        case .unit: (model.draft.typed.unit == .degrees ? Labels.inMils : .inDegrees).text
        case .north: (model.draft.typed.north == .mag ? Labels.gridNorth : .magneticNorth).text
        }
    }
}
