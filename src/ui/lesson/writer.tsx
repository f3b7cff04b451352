export function Writer() {
  return <p>later</p>
}
