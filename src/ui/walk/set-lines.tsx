import { Line, Outlines } from '@react-three/drei'
import { type ReactNode, useMemo } from 'react'
import { BufferAttribute, BufferGeometry, DoubleSide, EdgesGeometry, Vector3 } from 'three'
import { directionThrough } from '../../camera'
import { litFaceOutline, type Rig, type RigSource, type Surface, solidMesh } from '../../rig'
import { addScaled, ballMesh, type Rect, type Mesh as Triangles, type Vec3 } from '../../space'

/** The page's own colours. */
export interface Ink {
  readonly sheet: string
  readonly line: string
  readonly thin: string
  readonly pencil: string
}

/** A crease sharper than this is a line, degrees. */
const CREASE_DEG = 40
/** The rays of the lens are drawn this long, metres. */
const FIELD_M = 0.5
const LINE_PX = 1.25
/** Round a body: a hull so much larger shows from behind it. */
const HULL_PX = 1.5
const ROOM: readonly Surface['kind'][] = ['wall', 'floor', 'ceiling']

interface SetLinesProps {
  readonly rig: Rig
  /** Ids of what is in hand: drawn in pencil. */
  readonly held: readonly string[]
  readonly ink: Ink
}

/** The set as lines on the page's sheet. */
export function SetLines({ rig, held, ink }: SetLinesProps) {
  const colour = (id: string, usual = ink.line) => (held.includes(id) ? ink.pencil : usual)
  return (
    <>
      {rig.figures.map(({ id, posed }) =>
        posed.parts.map(({ name, mesh }) => (
          <Body key={`${id} ${name}`} mesh={mesh} fill={ink.sheet}>
            <Outlines thickness={HULL_PX} angle={0} color={colour(id)} />
          </Body>
        )),
      )}
      {rig.surfaces.map((surface) => (
        <Board
          key={surface.id}
          surface={surface}
          colour={colour(surface.of ?? surface.id, usual(surface, ink))}
          ink={ink}
        />
      ))}
      {rig.balls.map(({ id, centre, radiusM }) => (
        <Ball key={id} centre={centre} radiusM={radiusM} colour={colour(id)} ink={ink} />
      ))}
      {rig.sources.map(
        (source) => source.remote || <Lamp key={source.id} source={source} colour={colour(source.id)} ink={ink} />,
      )}
      <Lens rig={rig} colour={colour('camera', ink.thin)} />
    </>
  )
}

const usual = ({ kind }: Surface, ink: Ink): string => (ROOM.includes(kind) ? ink.thin : ink.line)

/** Filled with the sheet, a little behind its own lines, so that it hides what it stands before. */
function Body({ mesh, fill, children }: { mesh: Triangles; fill: string; children: ReactNode }) {
  const geometry = useMemo(() => geometryOf(mesh), [mesh])
  return (
    <mesh geometry={geometry}>
      <meshBasicMaterial color={fill} side={DoubleSide} polygonOffset polygonOffsetFactor={1} polygonOffsetUnits={1} />
      {children}
    </mesh>
  )
}

/** Drei's own `Edges` puts other points into a geometry of whose lines three keeps the first count: of fewer, the rest were strays. */
function Creases({ mesh, colour }: { mesh: Triangles; colour: string }) {
  const points = useMemo(() => {
    const { position } = new EdgesGeometry(geometryOf(mesh), CREASE_DEG).attributes
    return Array.from({ length: position!.count }, (_, i) => new Vector3().fromBufferAttribute(position!, i))
  }, [mesh])
  return points.length > 0 && <Line segments points={points} color={colour} lineWidth={LINE_PX} />
}

function geometryOf({ positions, normals, indices }: Triangles): BufferGeometry {
  const geometry = new BufferGeometry()
  geometry.setAttribute('position', new BufferAttribute(positions, 3))
  geometry.setAttribute('normal', new BufferAttribute(normals, 3))
  geometry.setIndex(new BufferAttribute(indices, 1))
  return geometry
}

interface Drawn {
  readonly colour: string
  readonly ink: Ink
}

/** Walls are their edges alone, or they would hide the set from outside. */
function Board({ surface: { rect, kind }, colour, ink }: Drawn & { surface: Surface }) {
  const sheet = useMemo(() => sheetOf(rect), [rect])
  return (
    <>
      <Path points={cornersOf(rect)} closed colour={colour} />
      {!ROOM.includes(kind) && (
        <Body mesh={sheet} fill={ink.sheet}>
          {null}
        </Body>
      )}
    </>
  )
}

function Ball({ centre, radiusM, colour, ink }: Drawn & { centre: Vec3; radiusM: number }) {
  const mesh = useMemo(() => ballMesh(centre, radiusM), [centre, radiusM])
  return (
    <Body mesh={mesh} fill={ink.sheet}>
      <Outlines thickness={HULL_PX} angle={0} color={colour} />
    </Body>
  )
}

/** Gear and lit face, the line that it is aimed along, and the plumb line to where its stand is. */
function Lamp({ source, colour, ink }: Drawn & { source: RigSource }) {
  const { gear, frame, aim } = source
  const solids = useMemo(() => gear.map((solid) => solidMesh(solid)), [gear])
  const face = useMemo(() => litFaceOutline(source), [source])
  const foot: Vec3 = [frame.origin[0], 0, frame.origin[2]]
  return (
    <>
      {solids.map((mesh, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: solids of a source have no names
        <Body key={i} mesh={mesh} fill={ink.sheet}>
          <Creases mesh={mesh} colour={colour} />
          <Outlines thickness={HULL_PX} angle={0} color={colour} />
        </Body>
      ))}
      <Path points={face} closed colour={colour} />
      <Path points={[frame.origin, aim]} colour={ink.thin} />
      <Path points={[frame.origin, foot]} colour={ink.thin} />
      <Path points={footprint(foot)} closed colour={ink.thin} />
    </>
  )
}

/** Where a stand is on the floor. */
const footprint = ([x, y, z]: Vec3): readonly Vec3[] =>
  Array.from({ length: 24 }, (_, i) => [
    x + FOOT_M * Math.cos((i * Math.PI) / 12),
    y,
    z + FOOT_M * Math.sin((i * Math.PI) / 12),
  ])
const FOOT_M = 0.12

/** The lens as the four corners of its field; nothing else of it shows where it looks. */
function Lens({ rig: { view }, colour }: { rig: Rig; colour: string }) {
  const { origin } = view.frame
  const corners = CORNERS.map(([x, y]) => addScaled(origin, directionThrough(x, y, view.frame, view), FIELD_M))
  return (
    <>
      <Path points={corners} closed colour={colour} />
      {corners.map((corner) => (
        <Path key={corner.join()} points={[origin, corner]} colour={colour} />
      ))}
    </>
  )
}

function Path({ points, colour, closed = false }: { points: readonly Vec3[]; colour: string; closed?: boolean }) {
  const path = (closed ? [...points, points[0]!] : points).map(([x, y, z]): [number, number, number] => [x, y, z])
  return <Line points={path} color={colour} lineWidth={LINE_PX} />
}

const CORNERS = [
  [-1, -1],
  [1, -1],
  [1, 1],
  [-1, 1],
] as const

const cornersOf = ({ centre, halfU, halfV }: Rect): readonly Vec3[] =>
  CORNERS.map(([u, v]) => addScaled(addScaled(centre, halfU, u), halfV, v))

const sheetOf = (rect: Rect): Triangles => ({
  positions: Float32Array.from(cornersOf(rect).flat()),
  normals: new Float32Array(12),
  indices: Uint32Array.of(0, 1, 2, 0, 2, 3),
})

export interface Letter {
  readonly id: string
  readonly words: string
  readonly at: Vec3
}

/** What the letters stand at: each source above its middle, and the lens. */
export const lettersOf = (rig: Rig): readonly Letter[] => [
  ...rig.sources
    .filter(({ remote }) => !remote)
    .map(({ id, letter, frame }) => ({ id, words: letter, at: addScaled(frame.origin, [0, 1, 0], 0.12) })),
  { id: 'camera', words: 'lens', at: addScaled(rig.view.frame.origin, [0, 1, 0], -0.1) },
]
