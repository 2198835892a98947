// The build for a phone. It has not been run: the Android SDK, NDK and Gradle plugin were not at hand. android/run tests the same
// sources through Maven; README.md says what was checked of this build without them.
pluginManagement {
    repositories {
        google()
        mavenCentral()
        gradlePluginPortal()
    }
}

dependencyResolutionManagement {
    repositoriesMode.set(RepositoriesMode.FAIL_ON_PROJECT_REPOS)
    repositories {
        google()
        mavenCentral()
    }
}

rootProject.name = "gatepost"
include(":app")
