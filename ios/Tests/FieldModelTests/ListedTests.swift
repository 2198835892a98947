import FieldModel
import Support
import Testing

/// Of a large sheet not everything is listed; the rest is found by a part of its name.
@MainActor @Suite struct ListedTests {
    /// Of a sheet with forty landmarks more not all are listed; the others are found by a part of their names.
    @Test func whatIsNotListedIsFoundByItsName() throws {
        let posts = (10..<50).map { "[[landmark]]\nname = \"Post \($0)\"\nkind = \"post\"\nat = \"57\($0) 49\($0)\"\n" }
        let sheet = try Project.text("tests/demo/velm-valley.toml") + posts.joined()
        let model = FieldModel(logbook: nil)
        #expect(model.carry(sheet, as: .toml))
        #expect(model.listed.sights.count == 24 && model.snapshot?.sightsLeft == 20 && model.listed.told == nil)
        model.typedPart = "post 45"
        #expect(model.listed.sights.map(\.landmark) == ["Post 45"] && model.listed.told == "One landmark is so named.")
        model.typedPart = "nowhere"
        #expect(model.listed.sights.isEmpty && model.listed.told?.hasPrefix("No landmark") == true)
        model.openPad(.sight("Post 45"))
        #expect(model.draft.part.isEmpty && model.listed.sights.count == 24)
    }

    /// Of a line with forty known points not all are listed; the others are found by a part of their names.
    @Test func aKnownPointThatIsNotListedIsFoundByItsName() throws {
        let stones = (10..<50).map {
            "[[known_point]]\nname = \"Stone \($0)\"\non = \"Long ride\"\nat = \"56\($0) 4930\"\n"
        }
        let ride = "[[line]]\nname = \"Long ride\"\nkind = \"track\"\npoints = [\"5600 4930\", \"5650 4930\"]\n"
        let model = FieldModel(logbook: nil)
        let sheet = try Project.text("tests/demo/velm-valley.toml") + ride + stones.joined()
        #expect(model.carry(sheet, as: .toml))
        model.choose(line: "Long ride")
        model.openPad(.asks(.init(.paces)))
        let all = model.listedPoints
        #expect(all.points.count == 24 && all.left > 15 && all.told == nil)
        model.typedPart = "stone 49"
        #expect(model.listedPoints.points.map(\.name) == ["Stone 49"])
        #expect(model.listedPoints.told == "One known point there is so named.")
        #expect(model.answer("Stone 49") && model.draft.part.isEmpty)
        #expect(model.listedPoints.points.count == 24 && model.listedPoints.left == all.left - 1)
        model.typedPart = "stone 49"
        #expect(model.listedPoints.points.isEmpty && model.listedPoints.told?.hasPrefix("No known point") == true)
        model.typedPart = "stone 1"
        #expect(model.listedPoints.points.count == 10)
    }

    /// Of a sheet with forty lines more likewise; several of them may be marked, one after the other.
    @Test func aLineThatIsNotListedIsFoundByItsName() throws {
        let rides = (10..<50).map {
            """
            [[line]]
            name = "Ride \($0)"
            kind = "track"
            points = ["56\($0) 49\($0)", "57\($0) 49\($0)"]

            """
        }
        let model = FieldModel(logbook: nil)
        #expect(model.carry(try Project.text("tests/demo/velm-valley.toml") + rides.joined(), as: .toml))
        #expect(model.listedLines.lines.count == 24 && !model.listedLines.lines.contains { $0.name == "Ride 12" })
        model.beUnsure()
        for ride in ["Ride 11", "Ride 12"] {
            model.typedPart = ride
            #expect(model.listedLines.lines.map(\.name) == [ride] && model.listedLines.told == "One line is so named.")
            model.touch(line: ride)
        }
        model.chooseTouched()
        #expect(model.stand == .oneOf(["Ride 11", "Ride 12"]) && model.draft.part.isEmpty)
        #expect(model.listedLines.lines.count == 24 && model.listedLines.told == nil)
    }
}
