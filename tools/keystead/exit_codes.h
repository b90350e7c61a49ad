// What the program's exit status means.
#pragma once

namespace keystead::exit_code {
inline constexpr int done = 0;
inline constexpr int danger = 1;  ///< done, and a danger finding stands
inline constexpr int input = 2;   ///< the input or the usage is wrong
inline constexpr int machine = 3; ///< the machine lacks something
} // namespace keystead::exit_code
