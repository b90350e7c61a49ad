// Depth only.
layout(location = 0) in vec3 position_m;
uniform mat4 clip_from_room;
void main() { gl_Position = clip_from_room * vec4(position_m, 1.0); }
