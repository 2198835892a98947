import FieldModel
import SwiftUI

/// What do you see? Likeliest first: a bearing to it, or whether it is in sight; then everything else that may be told.
struct SightList: View {
    @Environment(FieldModel.self) private var model

    var body: some View {
        Named(.whatDoYouSee, size: .heading)
        PartOfName(left: model.snapshot?.sightsLeft, told: [model.listed.told].compactMap { $0 })
        ForEach(model.listed.sights, id: \.landmark) { sight in
            Row(standing(sight), "\(sight.landmark), \(sight.kind)", note(sight)) {
                model.openPad(.sight(sight.landmark))
            }
            HStack(spacing: Sizes.between) {
                Outlined(.seen) { model.weighIn(.seen(sight.landmark)) }
                    .accessibilityLabel(Text(verbatim: Labels.isSeen.text(sight.landmark)))
                Outlined(.notSeen) { model.weighIn(.notSeen(sight.landmark)) }
                    .accessibilityLabel(Text(verbatim: Labels.isNotSeen.text(sight.landmark)))
            }
        }
        Outlined(.moreSightings, least: Sizes.walking) { model.openPad(.more) }
    }

    private func standing(_ sight: Sight) -> Standing {
        sight.sighted ? .good : model.looked(sight.landmark) == nil ? .open : .aging
    }

    /// Where to look for it, or what was read; and whether it was seen.
    private func note(_ sight: Sight) -> String {
        guard let isSeen = model.looked(sight.landmark) else { return sight.told }
        return "\(sight.told), \((isSeen ? Labels.seen : .notSeen).text)"
    }
}
