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
                Cell(name: Labels.sure, value: strip?.sure, note: strip?.sureNote)
                Cell(name: Labels.home, value: strip?.home, note: strip?.homeNote)
                Button {
                    choosing.toggle()
                } label: {
                    Cell(name: Labels.light, value: strip?.light, note: strip?.lightNote)
                }
                .buttonStyle(BareStyle())
            }
            if choosing { lights }
        }
        .padding(.horizontal, Sizes.side)
    }

    private var lights: some View {
        HStack(spacing: Sizes.between) {
            ForEach(Lighting.allCases, id: \.self) { other in
                Outlined(Labels.light(other)) { (light, choosing) = (other, false) }
            }
        }
    }
}

private struct Cell: View {
    let name: String
    let value: String?
    let note: String?

    var body: some View {
        VStack(alignment: .leading, spacing: 2) {
            Text(verbatim: name).letters(.label)
            Text(verbatim: value ?? "").letters(.figure)
            Text(verbatim: note ?? "").letters(.label)
        }
        .frame(maxWidth: .infinity, minHeight: 72, alignment: .topLeading)
        .accessibilityElement(children: .combine)
    }
}
