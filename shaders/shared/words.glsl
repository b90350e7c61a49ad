// The words of the shared texts as GLSL has them; sim/base/shared_words.h is their C++ side.
//
// Real is one number of a surface, a pixel or a ray: the kernels of sim/transport read it as sixteen
// at a time. Flat is a number that is the same for all of them; branches are taken on Flat numbers
// and integers only, a Real is chosen with `choose`, and work is left out when `some` is false.
#define Real float
#define Real2 vec2
#define Real3 vec3
#define Flat float
#define Flat2 vec2
#define Flat3 vec3
#define Flat4 vec4
#define Mask bool
#define Whole int
#define Uint uint
#define SHARED
#define CONSTANT const
#define choose(condition, yes, no) ((condition) ? (yes) : (no))
#define some(condition) (condition)
#define to_int(number) int(number)
#define to_float(number) float(number)
#define as_unsigned(number) uint(number)
#define as_signed(number) int(number)
