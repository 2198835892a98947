import FieldModel
import SwiftUI

/// How sure, how far home, how much light: the same three cells on every place. The last one turns the light.
struct StripView: View {
    @Binding var light: Lighting
    @Environment(FieldModel.self) private var model
    @Environment(\.dynamicTypeSize) private var typeSize
    @State private var choosing = false

    var body: some View {
        let strip = model.snapshot?.strip
        VStack(spacing: 0) {
            // From large text on the columns become rows.
            let layout =
                typeSize.isAccessibilitySize
                ? AnyLayout(VStackLayout(alignment: .leading, spacing: 2)) : AnyLayout(HStackLayout(spacing: 8))
            layout {
                Cell(strip?.sureLabel ?? Labels.sure.text, strip?.sure, isOld: strip?.sureIsOld, note: strip?.sureNote)
                Cell(Labels.home.text, strip?.home, isOld: strip?.homeIsOld, note: strip?.homeNote)
                Button {
                    choosing.toggle()
                } label: {
                    Cell(Labels.light.text, strip?.light, isOld: false, note: strip?.lightNote)
                }
                .buttonStyle(BareStyle())
            }
            if choosing { lights }
        }
        .padding(.horizontal, Sizes.side)
    }

    private var lights: some View {
        VStack(alignment: .leading, spacing: Sizes.between) {
            Named(.whichLight)
            ForEach(Lighting.allCases, id: \.self) { other in
                Outlined(other.label) { (light, choosing) = (other, false) }
            }
        }
    }
}

private struct Cell: View {
    let name: String
    let value: String?
    let isOld: Bool
    let note: String?

    init(_ name: String, _ value: String?, isOld: Bool?, note: String?) {
        (self.name, self.value, self.isOld, self.note) = (name, value, isOld ?? false, note)
    }

    var body: some View {
        VStack(alignment: .leading, spacing: 2) {
            Text(verbatim: name).letters(.label)
            Text(verbatim: value ?? Labels.notKnown.text).strikethrough(isOld).letters(.figure)
            Text(verbatim: note ?? Labels.noBook.text).letters(.label)
        }
        .frame(maxWidth: .infinity, minHeight: Sizes.walking, alignment: .topLeading)
        .accessibilityElement(children: .combine)
    }
}

extension Lighting {
    fileprivate var label: Labels {
        switch self {
        case .day: .lightDay
        case .night: .lightNight
        case .high: .lightHigh
        }
    }
}
