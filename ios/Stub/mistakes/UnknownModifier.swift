// expect: has no member 'paddding'
import SwiftUI

struct UnknownModifier: View {
    var body: some View { Text(verbatim: "").paddding(8) }
}
