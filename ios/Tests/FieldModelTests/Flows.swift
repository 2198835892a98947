import Foundation
import Support
import Testing

@testable import FieldModel

/// A touch of a screen, as a walker makes it.
struct Touch: Sendable {
    let name: String
    let act: @MainActor @Sendable (FieldModel) -> Void

    init(_ name: String, _ act: @escaping @MainActor @Sendable (FieldModel) -> Void) {
        (self.name, self.act) = (name, act)
    }

    static func digits(_ digits: String) -> [Touch] {
        digits.compactMap(\.wholeNumberValue).map { digit in Touch("digit \(digit)") { $0.press(.digit(digit)) } }
    }

    static func sight(_ landmark: String, _ digits: String) -> [Touch] {
        [Touch("sight \(landmark)") { $0.openPad(.sight(landmark)) }] + Self.digits(digits) + [finish]
    }

    static func leg(_ bearing: String, _ paces: [Int]) -> [Touch] {
        digits(bearing) + [finish] + paces.map { paces in Touch("count \(paces)") { $0.count(paces) } }
    }

    static let finish = Touch("finish") { $0.finishPad() }
    static let turn = Touch("turn") { $0.turn() }
}

/// The three flows, touch by touch.
enum Flows {
    static func fix() throws -> [Touch] {
        let sheet = try Project.text("tests/demo/velm-valley.toml")
        let carry = Touch("carry") { $0.carry(sheet, as: .toml) }
        let line = Touch("line") { $0.choose(line: "Velm Road") }
        let check = Touch("check") { $0.checkPlace() }
        let place = Touch("place") { $0.typedPlace = "43TEG 5691 4962" }
        return [carry, line] + Touch.sight("Sorn chapel", "016") + Touch.sight("Hallik mast", "088") + [place, check]
            + [Touch("keep") { $0.keep() }]
    }

    static func walk() -> [Touch] {
        let begin = Touch("begin") { $0.openPad(.walk) }
        let met = [Touch("met") { $0.openPad(.met) }, Touch("boulder") { $0.typedMet = "split boulder" }, .finish]
        let round = Touch("round") { $0.openPad(.detour) }
        let right = Touch("right") { $0.goRound(.right) }
        let here = Touch("here") { $0.ask(.here) }
        let on = Touch("on") { $0.walkOn() }
        let first = [begin] + Touch.leg("052", [10, 10, 70]) + met + [.turn]
        let second = Touch.leg("085", [150]) + [round] + Touch.digits("40") + [right, here, on, .turn]
        return first + second + Touch.leg("031", [120, -1]) + [.turn]
    }

    static func back() -> [Touch] {
        let reached = Touch("reached") { $0.reached() }
        let count = Touch("count 10") { $0.count(10) }
        return [Touch("ask") { $0.ask(.back) }, Touch("turn round") { $0.turnRound() }, count, reached, count, reached]
            + [Touch("undo") { $0.strike() }, reached, reached, Touch("close") { $0.close() }]
    }

    static func whole() throws -> [Touch] { try fix() + walk() + back() }
}
