// The one place where the test framework's main is compiled; every test program links it.
#define CATCH_CONFIG_MAIN
#include <catch2/catch.hpp>
