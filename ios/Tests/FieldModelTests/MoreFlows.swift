import Foundation
import Support
import Testing

@testable import FieldModel

extension Touch {
    /// More sightings, this kind, its answers by touch, then what is typed.
    static func ask(_ kind: Draft.Kind, _ answers: [String], digits: String? = nil) -> [Touch] {
        let begin = [Touch("more") { $0.openPad(.more) }, Touch("\(kind)") { $0.openPad(.asks(.init(kind))) }]
        let answers = answers.map { answer in Touch("answer \(answer)") { $0.answer(answer) } }
        return begin + answers + (digits.map { Self.digits($0) + [finish] } ?? [])
    }

    static func touchOf(_ landmarks: [String]) -> [Touch] {
        landmarks.map { landmark in Touch("touch \(landmark)") { $0.touch(landmark) } }
    }

    static func seen(_ landmark: String) -> Touch { Touch("seen \(landmark)") { $0.weighIn(.seen(landmark)) } }
    static func notSeen(_ landmark: String) -> Touch { Touch("no \(landmark)") { $0.weighIn(.notSeen(landmark)) } }
}

/// Sightings of every kind that a sheet without heights can weigh, touch by touch.
enum MoreFlows {
    static func carry() throws -> Touch {
        let sheet = try Project.text("tests/demo/velm-valley.toml")
        return Touch("carry") { $0.carry(sheet, as: .toml) }
    }

    /// Not sure which line.
    static let unsure = [
        Touch("unsure") { $0.beUnsure() }, Touch("road") { $0.touch(line: "Velm Road") },
        Touch("creek") { $0.touch(line: "Issa Creek") }, Touch("these") { $0.chooseTouched() },
    ]

    static let road = Touch("on the road") { $0.choose(line: "Velm Road") }

    static func alongTheLine() throws -> [Touch] {
        var flow = [try carry()] + unsure
        flow += Touch.sight("Sorn chapel", "016")
        flow += [.seen("Hallik mast"), .notSeen("Torn Top")]
        flow += Touch.ask(.lineRun, [], digits: "319")
        flow += Touch.ask(.oneOf, []) + Touch.touchOf(["Old kiln", "Torn Top"])
        flow += [Touch("these") { $0.answer("") }] + Touch.digits("060") + [.finish]
        flow += Touch.ask(.trip, [])
        flow += [Touch("from") { $0.answer("Ossel bridge") }]
        flow += [Touch("on") { $0.answer("Milestone 4") }, Touch("figure") { $0.answer("untilFull") }]
        flow += Touch.digits("1000") + [.finish]
        flow += Touch.ask(.side, ["Hallik mast", "Milestone 4", "right"])
        flow += Touch.ask(.angle, ["Sorn chapel", "Hallik mast"], digits: "72")
        flow += Touch.ask(.distance, ["Hallik mast"], digits: "1100")
        flow += Touch.ask(.running, ["Hallik mast", "Milestone 4", "070 mag", "600"], digits: "088")
        flow += Touch.ask(.paces, ["Ossel bridge", "Milestone 4"], digits: "607")
        return flow
    }

    /// A place held against the fix, weighed in, another sighting taken back, that struck; then the line is sure.
    static let afterwards: [Touch] = [
        Touch("place") { $0.typedPlace = "43TEG 5691 4962" }, Touch("check") { $0.checkPlace() },
        Touch("weigh in") { model in model.checked.map { _ = model.weighIn($0) } },
        Touch("take back") { $0.takeBack(1) }, Touch("undo") { $0.strike() }, road,
    ]

    static func inTheOpen() throws -> [Touch] {
        var flow = [try carry(), Touch("on no line") { $0.chooseNoLine() }]
        flow += Touch.sight("Sorn chapel", "016") + Touch.sight("Hallik mast", "088")
        flow += Touch.ask(.distance, ["Old kiln"], digits: "600")
        flow += Touch.ask(.angle, ["Sorn chapel", "Hallik mast"], digits: "72")
        flow += [Touch("place") { $0.typedPlace = "43TEG 5691 4962" }, Touch("check") { $0.checkPlace() }]
        return flow + [Touch("keep") { $0.keep() }]
    }
}
