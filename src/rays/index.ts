/**
 * rays: visibility on meshes and rectangles. In: bodies in world metres; out: a RayCaster over them (distances in
 * metres, unit normals). Runs in Node and in a worker; the only room that knows three-mesh-bvh.
 */
export * from './caster'
