// expect: has no member 'position'
import FieldModel
import SwiftUI

struct UnknownProperty: View {
    @Environment(FieldModel.self) private var model

    var body: some View { Text(verbatim: model.position) }
}
