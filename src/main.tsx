import { config } from 'zod'
import { mount } from './ui'

// The page's security policy forbids code made from text, which zod would try for speed.
config({ jitless: true })

mount(document.getElementById('root')!)
