@testable import FieldModel

/// A fix as a screen sends it, beside the same in the core's own words.
struct SentFix {
    let stand: Record.Stand
    let place: String
    let sightings: [(Record.Sighting, String)]

    init(_ stand: Record.Stand, _ place: String, _ sightings: [(Record.Sighting, String)]) {
        (self.stand, self.place, self.sightings) = (stand, place, sightings)
    }

    var record: Record { .fix(sightings.map(\.0), on: stand, with: nil) }

    var written: String {
        let said = sightings.map(\.1).joined(separator: ",")
        return #"\#(place),"sightings":[\#(said)]"#
    }

    static let all: [SentFix] = [
        SentFix(
            .oneOf(["Velm Road", "Issa Creek"]), #""lines":["Velm Road","Issa Creek"]"#,
            [
                (.init("Sorn chapel", "016 mag"), #"{"landmark":"Sorn chapel","bearing":"016 mag"}"#),
                (
                    .bearing(to: ["Old kiln", "Torn Top"], "060 mag"),
                    #"{"one_of":["Old kiln","Torn Top"],"bearing":"060 mag"}"#
                ),
                (.lineRun("319 mag"), #"{"what":"line-run","bearing":"319 mag"}"#),
                (.seen("Hallik mast"), #"{"what":"seen","landmark":"Hallik mast"}"#),
                (.notSeen("Torn Top"), #"{"what":"not-seen","landmark":"Torn Top"}"#),
                (
                    .trip(from: "Ossel bridge", metres: 1000, .untilFull, towards: "Milestone 4"),
                    #"{"what":"trip","from":"Ossel bridge","distance_m":1000,"cuts_off":true,"towards":"Milestone 4"}"#
                ),
                (
                    .paces(from: "Ossel bridge", double: 607, towards: nil),
                    #"{"what":"paces","from":"Ossel bridge","paces":607,"pace_kind":"double"}"#
                ),
            ]
        ),
        SentFix(
            .line("Velm Road"), #""line":"Velm Road""#,
            [
                (.init("Sorn chapel", "196 mag"), #"{"landmark":"Sorn chapel","bearing":"196 mag"}"#),
                (.init("Hallik mast", "088 mag"), #"{"landmark":"Hallik mast","bearing":"088 mag"}"#),
                (.init("Old kiln", "055 mag"), #"{"landmark":"Old kiln","bearing":"055 mag"}"#),
                (
                    .running(
                        "Hallik mast", first: "070 mag", second: "088 mag", metres: 600, towards: "Milestone 4"),
                    #"{"what":"running","landmark":"Hallik mast","first":"070 mag","second":"088 mag","run_m":600,"#
                        + #""towards":"Milestone 4"}"#
                ),
                (.kindHere(.bend), #"{"what":"here","kind":"bend"}"#),
                (
                    .side("Hallik mast", .right, towards: "Milestone 4"),
                    #"{"what":"side","landmark":"Hallik mast","side":"right","towards":"Milestone 4"}"#
                ),
                (
                    .witness("43TEG 5691 4962", spreadM: 20),
                    #"{"what":"witness","place":"43TEG 5691 4962","spread_m":20}"#
                ),
            ]
        ),
        SentFix(
            .open, #""open":true"#,
            [
                (.init("Sorn chapel", "016 mag"), #"{"landmark":"Sorn chapel","bearing":"016 mag"}"#),
                (
                    .distance("Hallik mast", metres: 1100),
                    #"{"what":"distance","landmark":"Hallik mast","distance_m":1100}"#
                ),
                (
                    .angle(left: "Sorn chapel", right: "Hallik mast", degrees: 72),
                    #"{"what":"angle","left":"Sorn chapel","right":"Hallik mast","angle_deg":72}"#
                ),
            ]
        ),
        SentFix(
            .line("Velm Road"), #""line":"Velm Road""#,
            [(.here("Ossel bridge"), #"{"what":"here","known":"Ossel bridge"}"#)]),
    ]
}
