import Support
import Testing

@testable import FieldModel

/// The core's words for the controls.
@Suite struct LabelTests {
    @Test(arguments: Labels.allCases) func everyLabelHasItsWords(label: Labels) {
        #expect(label.text != label.rawValue && !label.text.isEmpty)
    }

    @Test func aLabelSpeaksOfAName() {
        #expect(Labels.sight.text("Sorn chapel").contains("Sorn chapel"))
    }

    /// Each stands on a screen: the core keeps no word for nobody.
    @Test(arguments: Labels.allCases) func everyLabelIsUsed(label: Labels) throws {
        let screens = try Project.files(in: ["ios/App"]).map(\.text).joined()
        #expect(screens.contains(".\(label)"))
    }
}
