// expect: main actor-isolated
import FieldModel

func offTheMainActor(_ model: FieldModel) { model.turn() }
