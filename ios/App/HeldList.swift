import FieldModel
import SwiftUI

/// Does it fit? All that the fix holds, each with what it gives; a bearing is read again, anything is taken back.
struct HeldList: View {
    @Environment(FieldModel.self) private var model

    var body: some View {
        let held = model.held
        Named(.doesItFit, size: .heading)
        ForEach(held, id: \.number) { one in
            HStack(spacing: Sizes.between) {
                row(one)
                if model.isBeside, held.count > 1 {
                    Outlined(.strike) { model.takeBack(one.number) }
                        .accessibilityLabel(Text(verbatim: "\(one.sighting.name): \(Labels.strike.text)"))
                        .frame(width: Sizes.aside)
                }
            }
        }
    }

    @ViewBuilder private func row(_ one: Held) -> some View {
        let standing = one.verdict.map(Standing.init) ?? .open
        if model.isBeside, let landmark = one.sighting.landmark {
            Row(standing, landmark, note(one)) { model.openPad(.sight(landmark)) }
        } else {
            Told(standing, one.sighting.name, note(one))
        }
    }

    /// How it fits and what was read, the odds of what it was, and what it gives.
    private func note(_ one: Held) -> String {
        let fits = [one.verdict?.label.text, one.bearingTold ?? one.sighting.detail].compactMap { $0 }
        let odds = one.identity.map { "\($0.landmark) \($0.told)" }
        let told = one.verdict == nil || !one.sighting.isBearing || !odds.isEmpty ? one.told : ""
        return [fits.joined(separator: ", "), odds.joined(separator: ", "), told].filter { !$0.isEmpty }
            .joined(separator: "\n")
    }
}

/// As a row, but nothing to be touched.
struct Told: View {
    let standing: Standing
    let name: String
    let note: String

    init(_ standing: Standing, _ name: String, _ note: String) {
        (self.standing, self.name, self.note) = (standing, name, note)
    }

    var body: some View {
        HStack(spacing: Sizes.between) {
            MarkView(standing: standing)
            VStack(alignment: .leading, spacing: 2) {
                Text(verbatim: name).letters(.body)
                Text(verbatim: note).letters(.label)
            }
            .frame(maxWidth: .infinity, minHeight: Sizes.target, alignment: .leading)
        }
        .accessibilityElement(children: .combine)
    }
}

extension Verdict {
    var label: Labels {
        switch self {
        case .fits: .fits
        case .doubtful: .doubtful
        case .misfit: .misfit
        }
    }
}
