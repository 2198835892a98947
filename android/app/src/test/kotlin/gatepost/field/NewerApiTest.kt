package gatepost.field

import java.io.File
import java.util.TreeSet
import org.junit.Assert.assertEquals
import org.junit.Test
import org.objectweb.asm.ClassReader
import org.objectweb.asm.ClassVisitor
import org.objectweb.asm.MethodVisitor
import org.objectweb.asm.Opcodes

/**
 * The build's signature check passes over what is marked [NewerApi], and the framework that is compiled against here shows hidden
 * members too. So every framework member that marked code uses stands in this list, each looked up in the public documentation.
 */
class NewerApiTest {
    private val looked = listOf(
        "android/graphics/Insets.bottom", "android/graphics/Insets.left", "android/graphics/Insets.right", "android/graphics/Insets.top", // API 29
        "android/view/View.setPadding", // API 1
        "android/view/WindowInsets\$Type.displayCutout", "android/view/WindowInsets\$Type.ime", "android/view/WindowInsets\$Type.systemBars", // API 30
        "android/view/WindowInsets.getInsets", // API 30
    )

    @Test fun markedCodeUsesWhatWasLookedUp() {
        val classes = File(checkNotNull(System.getProperty("gatepost.classes"))).walk().filter { it.extension == "class" }
        val used = TreeSet<String>()
        classes.forEach { ClassReader(it.readBytes()).accept(MarkedUses(used), 0) }
        assertEquals(looked.sorted(), used.toList())
    }
}

/** Notes every framework member that a marked method, or a method of a marked class, uses. */
private class MarkedUses(private val used: MutableSet<String>) : ClassVisitor(Opcodes.ASM9) {
    private var wholeClass = false

    override fun visitAnnotation(name: String, visible: Boolean) = null.also { if (name == MARK) wholeClass = true }

    override fun visitMethod(access: Int, name: String, shape: String, generic: String?, thrown: Array<out String>?) = object : MethodVisitor(Opcodes.ASM9) {
        private var marked = wholeClass

        override fun visitAnnotation(name: String, visible: Boolean) = null.also { if (name == MARK) marked = true }

        override fun visitMethodInsn(code: Int, owner: String, name: String, shape: String, onInterface: Boolean) = note(owner, name)

        override fun visitFieldInsn(code: Int, owner: String, name: String, shape: String) = note(owner, name)

        private fun note(owner: String, name: String) {
            if (marked && owner.startsWith("android/")) used += "$owner.$name"
        }
    }

    private companion object {
        const val MARK = "Lgatepost/field/NewerApi;"
    }
}
