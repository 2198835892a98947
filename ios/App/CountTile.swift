import FieldModel
import SwiftUI

/// The whole tile counts. It answers without the eye: every ten and every hundred feel and sound other than one.
struct CountTile: View {
    var grows = false
    @Environment(FieldModel.self) private var model
    @Environment(Tones.self) private var tones

    var body: some View {
        Button {
            model.count(1)
            tones.counted(model.draft.leg.count)
        } label: {
            VStack(spacing: 4) {
                Text(verbatim: "\(model.draft.leg.count)").letters(.count)
                Named(.doublePaces, size: .label)
            }
        }
        .buttonStyle(OutlinedStyle(least: 100, grows: grows))
        .accessibilityElement(children: .ignore)
        .accessibilityLabel(Text(verbatim: Labels.countsOneMore.text("\(model.draft.leg.count)")))
        // A pace taken back, or the next leg's beginning, is none more.
        .sensoryFeedback(trigger: model.draft.leg.count) { before, count in
            if count < before { return nil }
            return count % 100 == 0 ? .success : count % 10 == 0 ? .impact(weight: .heavy) : .impact(weight: .light)
        }
    }
}

/// Ten more and one less, for those who count in their head.
struct CountKeys: View {
    @Environment(FieldModel.self) private var model

    var body: some View {
        HStack(spacing: Sizes.between) {
            Outlined(.tenMore, least: Sizes.walking) { model.count(10) }
            Outlined(.oneLess, least: Sizes.walking) { model.count(-1) }
        }
    }
}
