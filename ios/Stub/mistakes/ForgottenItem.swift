// expect: switch must be exhaustive
import ChartList

func forgotten(_ item: ChartItem) -> Bool {
    switch item {
    case .path, .circle, .text: true
    }
}
