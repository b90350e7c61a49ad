// Precompiled for every test file: Catch2's header is by far the slowest thing a test includes.
#pragma once
#include <catch2/catch.hpp>
#include <glm/glm.hpp>
#include <string>
#include <vector>
