// Not run here (settings.gradle.kts). Gradle 8.13 or newer of version 8, and JDK 17.
plugins {
    id("com.android.application") version "8.13.2" apply false
    id("org.jetbrains.kotlin.android") version "2.4.21" apply false
}
