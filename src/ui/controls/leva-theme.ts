const FONT = '"Source Sans 3 Variable", system-ui, sans-serif'

/**
 * The page's own type, measures and colours (look/tokens.css) for leva, in both looks. They go into custom properties
 * as they are, where `inherit` would mean leva's own.
 */
export const LEVA_THEME = {
  colors: {
    elevation1: 'transparent',
    elevation2: 'transparent',
    elevation3: 'var(--well)',
    accent1: 'var(--edge)',
    accent2: 'Highlight',
    accent3: 'var(--ink)',
    highlight1: 'var(--edge)',
    highlight2: 'var(--ink2)',
    highlight3: 'var(--ink)',
    vivid1: 'var(--pencil)',
  },
  radii: { xs: '0', sm: '0', lg: '0' },
  space: { xs: '0', sm: '0', md: '0', rowGap: '0', colGap: '0.5rem' },
  fonts: { mono: FONT, sans: FONT },
  fontSizes: { root: '1rem' },
  sizes: { rowHeight: 'var(--row)' },
  shadows: { level1: 'none', level2: 'none' },
}
