// expect: switch must be exhaustive
import FieldModel

func forgotten(_ pad: Draft.Pad) -> String {
    switch pad {
    case .sight(let landmark): landmark
    case .walk, .pace: ""
    }
}
