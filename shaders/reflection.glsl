// Reflection as the shading passes ask for it.
#include "shared/finish.glsl"
#include "shared/reflection.glsl"

const float pi = 3.14159265358979;

// Hair is drawn by a pass of its own, so that other pixels do not pay for it.
#ifdef SPECIAL
const bool some_hair = true;
#else
const bool some_hair = false;
#endif

vec3 reflection(Surface s, vec3 v, vec3 l, bool specular, bool skin_wrap) {
    return reflection(s, v, l, specular, skin_wrap, some_hair);
}
