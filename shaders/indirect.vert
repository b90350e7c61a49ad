// Irradiance baked at the vertices, for up to four lights at a time.
layout(location = 0) in vec3 position_m;
layout(location = 1) in vec3 first;
layout(location = 2) in vec3 second;
layout(location = 3) in vec3 third;
layout(location = 4) in vec3 fourth;

uniform mat4 clip_from_room;

out vec3 v_position;
out vec3 v_first;
out vec3 v_second;
out vec3 v_third;
out vec3 v_fourth;

void main() {
    v_position = position_m;
    v_first = first;
    v_second = second;
    v_third = third;
    v_fourth = fourth;
    gl_Position = clip_from_room * vec4(position_m, 1.0);
}
